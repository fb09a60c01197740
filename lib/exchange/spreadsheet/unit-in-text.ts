/** A unit at the end of a heading or a figure: `8 cm`, `Height (cm)`, `9¼ in`, `Weight, kg`. */
const AT_END = /(?:^|[\s\d¼½¾⅛⅜⅝⅞([,])(cm|in|inch|inches|kgs?|lbs?)\.?[)\]]?$/i;

/** A unit behind the figure that a text begins with: `8 cm calf`. */
const BEHIND_FIGURE = /^\+?\d[\d.,/ ¼½¾⅛⅜⅝⅞-]*(cm|in|inch|inches)(?![a-z])/i;

/** The unit that a heading or figure names behind its first figure or at its end, in small letters; empty where there is none. */
export function unitNamed(text: string): string[] {
  const unit = (AT_END.exec(text.trim()) ?? BEHIND_FIGURE.exec(text.trim()))?.[1]?.toLowerCase();
  return unit ? [unit] : [];
}

/** Whether a figure carries letters or strokes, so that it says its unit or is refused for them. */
export function namesUnit(text: string): boolean {
  return /[a-z"″”'′’]/i.test(text);
}

/** A heading without the unit behind it. Example: `height (cm)` is `height`. */
export function withoutUnit(heading: string): string {
  return heading.replace(/[\s,]*[([]?\b(?:cm|in|inch|inches|kgs?|lbs?)\.?[)\]]?$/i, '').trim() || heading;
}

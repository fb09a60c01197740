import { ask, type Reading, read, refused } from '../outcome';
import { type Fraction, fraction, sumOf } from './fraction';

const GLYPHS: Record<string, string> = {
  '½': '1/2',
  '¼': '1/4',
  '¾': '3/4',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
  '⅒': '1/10',
  '⅓': '1/3',
  '⅔': '2/3',
  '⅕': '1/5',
  '⅖': '2/5',
  '⅗': '3/5',
  '⅘': '4/5',
  '⅙': '1/6',
  '⅚': '5/6',
  '⅐': '1/7',
  '⅑': '1/9',
};

const EVERY_GLYPH = new RegExp(`[${Object.keys(GLYPHS).join('')}]`, 'g');

/** Nothing to tidy: most figures, so most of a file. */
const IS_PLAIN = /^\d+(?:[.,]\d+)?$/;

/** Parts of an inch or a centimetre that tapes are marked in; powers of two to 1/64, and tenths. Common practice. */
const TAPE_PARTS = new Set([2n, 4n, 8n, 10n, 16n, 32n, 64n]);

const MOST_FIGURES = 6;

/** Characters of one figure with its unit; the patterns below take time that grows faster than their text. */
const LONGEST_FIGURE = 60;

/** Why a text is too long to be one figure; undefined for one that is not. Readers of figures ask before they look for anything in it. */
export function tooLongForFigure(typed: string): string | undefined {
  if (typed.length <= LONGEST_FIGURE) return undefined;
  return `“${typed.slice(0, 20)}…” has more characters than one figure can have. Type the figure alone.`;
}

/**
 * The exact number a person typed: whole, decimal (point or comma), fraction or mixed fraction.
 *
 * Reads `14`, `37.5`, `37,5`, `3/4`, `14 3/4`, `14-3/4`, `14¾`, `14 and 3/4`. Shape: text in, exact fraction out.
 * Asks, never guesses: `1,234` (thousands or decimal), `143/4` (14 3/4 or 143/4), `7 3` (a fraction without its lower part).
 * Refuses by name: `12/`, `1.2.3`, `12 1/0`, `12 3/2`, `1e2`, `-5`, letters, digits of another script, parts no tape shows (`1/3`).
 * Source: number syntax of the SI brochure (point or comma as decimal marker); blocking bad syntax as it is typed halves
 * slips by a factor of ten (Thimbleby & Cairns 2010, J R Soc Interface); the rest is common practice of tape measures.
 * Example: `readNumber('14-3/4')` is 59/4.
 */
export function readNumber(typed: string): Reading<Fraction> {
  const tooLong = tooLongForFigure(typed);
  if (tooLong) return refused(tooLong);
  const text = tidy(typed);
  if (text === '') return refused('Nothing is typed here yet.');
  const shown = `“${typed.trim()}”`;
  if (/^[-−]/.test(text)) return refused(`${shown} is below zero. Type a length without a minus.`);
  if (/[０-９٠-٩۰-۹०-९]/.test(text)) return refused(`${shown} uses figures of another script. Type 0 to 9.`);
  const letter = /[^0-9.,/\s-]/.exec(text);
  if (letter) return refused(refusedSign(shown, letter[0]));
  if (!/\d/.test(text)) return refused(`${shown} has no figures in it.`);

  const whole = /^\d+$/.exec(text);
  if (whole) return withinReach(shown, fraction(BigInt(text), 1n));

  const decimal = /^(\d+)([.,])(\d+)$/.exec(text);
  if (decimal) return readDecimal(shown, decimal[1] ?? '', decimal[2] ?? '', decimal[3] ?? '');

  const mixed = /^(?:(\d+)(?: ?- ?| ))?(\d+) ?\/ ?(\d+)$/.exec(text);
  if (mixed) return readMixed(shown, mixed[1], mixed[2] ?? '', mixed[3] ?? '');

  return refusedShape(shown, text);
}

function tidy(typed: string): string {
  if (IS_PLAIN.test(typed)) return typed;
  return typed
    .replace(EVERY_GLYPH, (glyph) => ` ${GLYPHS[glyph]}`)
    .replace(/[⁄∕]/g, '/')
    .replace(/[‐‑‒–—−]/g, '-')
    .replace(/(?<=\d)\s*(?:and|&|\+)\s*(?=\d)/gi, ' ')
    .replace(/[\s\u00a0\u2009\u202f]+/g, ' ')
    .trim()
    .replace(/(?<=\d) ?- (?=\d+\/)/, '-');
}

function readDecimal(shown: string, whole: string, mark: string, decimals: string): Reading<Fraction> {
  if (decimals.length > MOST_FIGURES) return refused(`${shown} has more decimals than any tape shows.`);
  const groupsOfThree = mark === ',' && decimals.length === 3 && whole.length <= 3 && !whole.startsWith('0');
  if (groupsOfThree) {
    const readings = [`${whole}.${decimals}`, `${whole}${decimals}`];
    return ask(`${shown} can be read two ways. Type ${readings[0]} or ${readings[1]}.`, readings);
  }
  return withinReach(shown, fraction(BigInt(whole + decimals), 10n ** BigInt(decimals.length)));
}

function readMixed(shown: string, whole: string | undefined, upper: string, lower: string): Reading<Fraction> {
  const numerator = BigInt(upper);
  const denominator = BigInt(lower);
  if (denominator === 0n) return refused(`${shown} divides by nothing.`);
  if (!TAPE_PARTS.has(denominator)) return refused(`${shown}: no tape is marked in 1/${lower}. Halves to 64ths and tenths can be read.`);
  if (whole !== undefined) {
    if (numerator === 0n || numerator >= denominator)
      return refused(`${shown}: ${upper}/${lower} is not a part of one. Type the whole figure and the part again.`);
    return withinReach(shown, sumOf(fraction(BigInt(whole), 1n), fraction(numerator, denominator)));
  }
  if (numerator === 0n) return refused(`${shown} is nothing. Type a length above zero.`);
  if (numerator < denominator) return read(fraction(numerator, denominator));
  return askRunTogether(shown, upper, lower);
}

/** `143/4` may be 14 3/4 with the space left out: every split that leaves a proper part is offered. */
function askRunTogether(shown: string, upper: string, lower: string): Reading<Fraction> {
  const readings: string[] = [];
  for (let cut = 1; cut < upper.length; cut++) {
    const part = upper.slice(cut);
    if (!part.startsWith('0') && BigInt(part) < BigInt(lower)) readings.push(`${upper.slice(0, cut)} ${part}/${lower}`);
  }
  if (readings.length === 0) return refused(`${shown} is more than one whole. Type the whole figure, a space, then the part.`);
  return ask(`${shown} can be read more than one way. Type ${readings.join(' or ')}, with a space.`, readings);
}

function withinReach(shown: string, value: Fraction): Reading<Fraction> {
  if (value.numerator >= value.denominator * 100_000n) return refused(`${shown} is too large to be measured.`);
  return read(value);
}

function refusedSign(shown: string, sign: string): string {
  if (/[oO]/.test(sign)) return `${shown}: a letter O. Type a nought.`;
  if (/[lI]/.test(sign)) return `${shown}: a letter ${sign}. Type a one.`;
  if (/[a-z]/i.test(sign)) return `${shown}: a letter ${sign}. Type figures only.`;
  return `${shown}: the sign ${sign} cannot be read here.`;
}

function refusedShape(shown: string, text: string): Reading<Fraction> {
  if (/\/$/.test(text)) return refused(`${shown} stops at the stroke. Type the lower part too.`);
  if (/^\//.test(text)) return refused(`${shown} starts at the stroke. Type the upper part too.`);
  if ((text.match(/[.,]/g) ?? []).length > 1) return refused(`${shown} has more than one decimal mark.`);
  if (/^[.,]\d/.test(text)) return refused(`${shown} has nothing before the decimal mark. Type 0 before it.`);
  if (/[.,]$/.test(text)) return refused(`${shown} stops at the decimal mark.`);
  if (/^\d+ \d+$/.test(text)) {
    const [whole, part] = text.split(' ');
    return ask(`${shown}: is ${part} a part of one? Type it with its lower part, as ${whole} ${part}/8.`, []);
  }
  if (/[.,].*\/|\/.*[.,]/.test(text)) return refused(`${shown} mixes decimals and a fraction.`);
  return refused(`${shown} cannot be read as one figure.`);
}

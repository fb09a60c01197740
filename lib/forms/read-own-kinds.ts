import { OWN_KIND_BOUNDS, type OwnKind } from '../observations/catalogue';

/** What a clinic adds to what is looked at, as typed, or a sentence beside each box that stops it. */
export type OwnKindsRead =
  | { readonly kind: 'read'; readonly own: readonly OwnKind[] }
  | { readonly kind: 'refused'; readonly errors: Readonly<Record<string, string>> };

/**
 * A clinic's own kinds: those that stand, whose name, unit and range stay (their figures are read under them), and new ones in further rows.
 *
 * Refuses another name for a kind that stands, a kind without a name or a range, a least change alone, a range whose end is not above its beginning, figures that are none, two kinds of one name.
 * Shape: boxes numbered from 0, the kinds that stand; a new kind gets the next free number for good.
 */
export function readOwnKinds(typed: Readonly<Record<string, string>>, standing: readonly OwnKind[]): OwnKindsRead {
  const errors: Record<string, string> = {};
  const text = (box: string) => (typed[box] ?? '').trim();
  const figure = (box: string): number | undefined => {
    if (/^[-−]?\d{1,5}([.,]\d{1,2})?$/.test(text(box))) return Number(text(box).replace('−', '-').replace(',', '.'));
    errors[box] = text(box) === '' ? 'Type a figure.' : `“${text(box).slice(0, 20)}” is not a figure.`;
    return undefined;
  };
  const own: OwnKind[] = [];
  for (let place = 0; place < OWN_KIND_BOUNDS.most; place++) {
    const before = standing[place];
    const [label, unit] = [text(`label${place}`), text(`unit${place}`)];
    if (!before && label === '' && unit === '' && text(`low${place}`) === '' && text(`high${place}`) === '') {
      if (text(`least${place}`) !== '') errors[`least${place}`] = 'Of what? Give it a name and a range, or leave this empty.';
      continue;
    }
    if (before && label !== before.label) errors[`label${place}`] = `It stays “${before.label}”: its figures were read so. Make a new one.`;
    else if (label === '') errors[`label${place}`] = 'Say what it is called.';
    if (label.length > OWN_KIND_BOUNDS.label) errors[`label${place}`] = `Too long: ${OWN_KIND_BOUNDS.label} characters at most.`;
    if (own.some((one) => one.label.toLowerCase() === label.toLowerCase())) errors[`label${place}`] = 'Another one is called so.';
    if (unit.length > OWN_KIND_BOUNDS.unit) errors[`unit${place}`] = `Too long: ${OWN_KIND_BOUNDS.unit} characters at most.`;
    const low = before ? before.low : figure(`low${place}`);
    const high = before ? before.high : figure(`high${place}`);
    const leastChange = text(`least${place}`) === '' ? null : figure(`least${place}`);
    if (low !== undefined && high !== undefined && high <= low) errors[`high${place}`] = `Not above ${low}.`;
    if (leastChange !== undefined && leastChange !== null && leastChange <= 0) errors[`least${place}`] = 'Above 0, or nothing.';
    if (low === undefined || high === undefined || leastChange === undefined) continue;
    const id = before?.id ?? `own-${1 + Math.max(0, ...[...standing, ...own].map((one) => Number(one.id.slice(4))))}`;
    const asked = before ? typed[`asked${place}`] === 'yes' : true;
    own.push({ id, label: before ? before.label : label, unit: before ? before.unit : unit, low, high, leastChange, asked });
  }
  return Object.keys(errors).length > 0 ? { kind: 'refused', errors } : { kind: 'read', own };
}

/** The boxes of the form as they stand. */
export function typedOwnKinds(own: readonly OwnKind[]): Readonly<Record<string, string>> {
  return Object.fromEntries(
    own.flatMap(({ label, unit, low, high, leastChange, asked }, place) => [
      [`label${place}`, label],
      [`unit${place}`, unit],
      [`low${place}`, String(low)],
      [`high${place}`, String(high)],
      [`least${place}`, leastChange === null ? '' : String(leastChange)],
      [`asked${place}`, asked ? 'yes' : ''],
    ]),
  );
}

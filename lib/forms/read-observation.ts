import { limbInWords } from '../ladder/limb';
import type { ObservedKind } from '../observations/kind';
import { LONGEST_SEEN, type Observation } from '../observations/observation';
import { observationFaults } from '../observations/observation-faults';
import { type CalendarDay, readDay } from '../units/calendar-day';

/** An observation as typed, or a sentence beside each box that stops it. */
export type ObservationRead =
  | { readonly kind: 'read'; readonly observation: Observation }
  | { readonly kind: 'refused'; readonly errors: Readonly<Record<string, string>> };

/**
 * One observation of a kind as typed: a figure an item in boxes `item-…`, side, choice, place, words.
 *
 * Refuses a day that is none, a figure that is none, and what `observationFaults` names, such as a day after a corrected mark was `gone`; a kind of which nothing was given;
 * hours without the days they were worn on are taken. A mark needs its choice and its place. Shape: boxes by name; the kind; birth and today.
 */
export function readObservation(
  kind: ObservedKind,
  typed: Readonly<Record<string, string>>,
  { born, today, rater, gone }: { readonly born: CalendarDay; readonly today: CalendarDay } & Pick<Observation, 'rater' | 'gone'>,
): ObservationRead {
  const errors: Record<string, string> = {};
  const text = (box: string) => (typed[box] ?? '').trim();
  const read = readDay(text('day'));
  const day = read.kind === 'read' ? read.value : undefined;
  if (!day) errors.day = 'Choose the day.';
  const figures: Record<string, number> = {};
  for (const item of kind.items) {
    const box = `item-${item.id}`;
    if (text(box) === '') continue;
    const value = figureIn(text(box));
    if (value === undefined) errors[box] = `“${text(box).slice(0, 20)}” is not a figure.`;
    else figures[item.id] = value;
  }
  for (const { field, reason } of observationFaults(
    kind,
    { version: kind.version, day: day ?? today, gone: day ? gone : null, figures },
    born,
    today,
  ))
    errors[field === 'gone' ? 'day' : field] ??= reason;
  const choice = kind.choices.find((one) => one === text('choice')) ?? null;
  const side = kind.where === 'side' ? ((['left', 'right'] as const).find((one) => one === text('side')) ?? null) : null;
  if (kind.choices.length > 0 && !choice) errors.choice = 'Choose one.';
  if (kind.where === 'side' && !side) errors.side = 'Choose a side.';
  const first = `item-${kind.items[0]?.id ?? ''}`;
  if (kind.where !== 'place' && Object.keys(figures).length === 0 && Object.keys(errors).length === 0)
    errors[first] = 'Nothing was given yet.';
  const placed = kind.where === 'place' || kind.where === 'site';
  const place = placed ? placeIn(text('limb'), text('along')) : null;
  if (placed && !place) errors.limb = 'Choose the limb and how far up it is.';
  const words = text('words');
  if (words.length > LONGEST_SEEN) errors.words = `Too long: ${LONGEST_SEEN} characters at most.`;
  if (!day || Object.keys(errors).length > 0) return { kind: 'refused', errors };
  const { id, version } = kind;
  return { kind: 'read', observation: { kind: id, version, day, figures, choice, side, place, gone, rater, words: words || null } };
}

/** Example: `11,5` is 11.5; `-10` is −10; `1e3` is none. */
function figureIn(text: string): number | undefined {
  return /^[-−]?\d{1,6}([.,]\d{1,2})?$/.test(text) ? Number(text.replace('−', '-').replace(',', '.')) : undefined;
}

function placeIn(limb: string, along: string): Observation['place'] {
  const found = (['left leg', 'right leg', 'left arm', 'right arm'] as const).find((one) => one === limb);
  if (!found || !/^\d{1,3}$/.test(along) || Number(along) > 100) return null;
  const [side, kind] = found.split(' ') as ['left' | 'right', 'leg' | 'arm'];
  return { limb: kind, side, along: Number(along) / 100 };
}

/** A place in words. Example: `left leg, a quarter up` is said as `left leg, 25 % of the way up`. */
export function placeInWords({ limb, side, along }: NonNullable<Observation['place']>): string {
  return `${limbInWords(limb, side)}, ${Math.round(along * 100)}\u202f% of the way up`;
}

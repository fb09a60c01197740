import { type FamilyReply, REPLY_BOUNDS, REPLY_PLACES, REPLY_SIGNS, type ReplyAnswer } from '../../observations/family-reply';
import type { CalendarDay } from '../../units/calendar-day';
import type { FamilyAsks } from './family-content';
import { hoursAskedOn } from './family-page';
import type { ReplyWords } from './reply-words';

/** What a family typed, as it is kept; or a sentence in its language beside each box that stops it, `form` for the whole. */
export type ReplyRead =
  | { readonly kind: 'read'; readonly reply: FamilyReply }
  | { readonly kind: 'refused'; readonly errors: Readonly<Record<string, string>> };

/**
 * A reply as typed: hours in `hours`, the sign of place i in `mark-i`, `call`, `words`, `by`.
 *
 * Refuses hours that are no figure from 0 to 24 (with at most two decimals, comma or point), words and a name longer than they are kept, and a
 * reply that says nothing. Shape: boxes by name, what the page asks, day and time of the clinic’s clock, the words of the page’s language.
 * Example: `7,5` on a page that asks for 12 h is 7.5 of 12 planned.
 */
export function readReply(
  typed: Readonly<Record<string, string>>,
  asks: FamilyAsks,
  { day, time }: Pick<FamilyReply, 'day' | 'time'>,
  words: ReplyWords,
): ReplyRead {
  const errors: Record<string, string> = {};
  const text = (box: string) => (typed[box] ?? '').trim();
  const hours = text('hours') === '' ? null : hoursIn(text('hours'));
  if (hours === undefined) errors.hours = words.hoursWrong;
  for (const box of ['words', 'by'] as const) if (text(box).length > REPLY_BOUNDS[box]) errors[box] = words.tooLong(REPLY_BOUNDS[box]);
  const marks = REPLY_PLACES.flatMap((along, at) => {
    const sign = REPLY_SIGNS.find((one) => one === text(`mark-${at}`));
    return sign ? [{ place: { limb: asks.limb, side: asks.side, along }, sign }] : [];
  });
  const call = text('call') === 'yes';
  if (hours === null && marks.length === 0 && !call && text('words') === '') errors.form = words.empty;
  if (hours === undefined || Object.keys(errors).length > 0) return { kind: 'refused', errors };
  const told = { hours, planned: hoursAskedOn(asks, day), marks, call, words: text('words') || null, by: text('by') || null };
  return { kind: 'read', reply: { day, time, pageOf: asks.pageOf, ...told, answer: null } };
}

/** Example: `7,5` is 7.5; `24` is 24; `24.5`, `-1`, `1e1` and `all day` are none. */
function hoursIn(text: string): number | undefined {
  const hours = /^\d{1,2}([.,]\d{1,2})?$/.test(text) ? Number(text.replace(',', '.')) : Number.NaN;
  return hours <= 24 ? hours : undefined;
}

/**
 * What became of a reply, in the family’s own language; `dayOf` writes a day as their page does. Of one that asks for nothing nobody has to
 * note that it was read: of it is said that it came, and no more.
 */
export function stateToFamily(
  { became, asks }: { readonly became: Pick<ReplyAnswer, 'did' | 'day'> | null; readonly asks: boolean },
  { state }: ReplyWords,
  dayOf: (day: CalendarDay) => string,
): string {
  if (became) return state[became.did](dayOf(became.day));
  return asks ? state.open : state.came;
}

/** A reply in the family’s own language, part by part, as it stands after it was sent. */
export function replyToFamily({ hours, marks, call, words, by }: FamilyReply, said: ReplyWords): readonly string[] {
  return [
    ...(hours === null ? [] : [said.said.hours(hours)]),
    ...marks.map(
      ({ place, sign }) => `${said.places[place.limb][Math.round(place.along * (REPLY_PLACES.length - 1))]}: ${said.signs[sign]}`,
    ),
    ...(call ? [said.said.call] : []),
    ...(words ? [`“${words}”`] : []),
    ...(by ? [said.said.by(by)] : []),
  ];
}

import { DONE_BY_MEASURING, type Prompt, type PromptAction } from '@/lib/prompts/prompt';
import type { OrderReason } from '@/lib/record/order';
import type { DateKind, ScheduledDate } from '@/lib/schedule/scheduled-date';
import { addDays, type CalendarDay, showDayOfYear } from '@/lib/units/calendar-day';

/** The act in the words of a button. */
export const ACT_WORDS: Readonly<Record<PromptAction, string>> = {
  refer: 'Told the prescriber',
  review: 'Reviewed',
  'repeat-reading': 'Measure again',
  remeasure: 'Measure now',
  refit: 'Measure and refit',
  release: 'See to the piece',
  order: 'Start the order',
  'let-out': 'Let it out',
  'first-fit': 'Record the check',
  visit: 'Start the visit',
  ask: 'Open the course',
};

/** Acts that are done when they are noted: a call, a review. All others are done on a page of their own, and only begun until then. */
export const DONE_WHEN_NOTED: readonly PromptAction[] = ['refer', 'review'];

/** Acts between which the ways of going on with one piece are chosen. */
const CHOSEN_BY_ODDS: readonly PromptAction[] = ['refit', 'order', 'let-out'];

/** Where the ways of going on with the piece of a prompt stand side by side; undefined where it is about no piece at hand. */
export function triedAt(
  patientId: string,
  { action, about }: Pick<Prompt, 'action' | 'about'>,
  pieces: readonly { readonly piece: string; readonly pieceId: string }[],
): string | undefined {
  const piece = CHOSEN_BY_ODDS.includes(action) ? pieces.find((one) => one.piece === about.piece) : undefined;
  return piece && `/patients/${patientId}/pieces/${piece.pieceId}/what-if`;
}

/** Prompts for which somebody comes: a visit can be booked from them. */
const NEEDS_A_VISIT: readonly PromptAction[] = [...DONE_BY_MEASURING, 'review', 'let-out', 'first-fit'];

/** Where a visit for a prompt is booked; undefined where nobody comes for it. */
export function bookedAt(patientId: string, action: PromptAction): string | undefined {
  return NEEDS_A_VISIT.includes(action) ? `/patients/${patientId}/bookings#form` : undefined;
}

/** Days that are often meant by “not now”: a week, two weeks, the next visit where one is known. */
export function quickDays(today: CalendarDay, dates: readonly Pick<ScheduledDate, 'kind' | 'day'>[]): { day: string; words: string }[] {
  const next = dates.find(({ kind, day }) => (kind === 'visit' || kind === 'booking') && day > today)?.day;
  return [
    { day: addDays(today, 7), words: 'In a week' },
    { day: addDays(today, 14), words: 'In two weeks' },
    ...(next ? [{ day: next, words: `At the next visit, ${showDayOfYear(next)}` }] : []),
  ];
}

/** Where an act is done: the ladder sheet, a new order, the piece itself, or back to the patient for what happens elsewhere. */
export function afterActing(
  patientId: string,
  prompt: Pick<Prompt, 'action' | 'about' | 'rule'>,
  pieces: readonly { readonly piece: string; readonly pieceId: string }[],
): string {
  const piece = pieces.find((one) => one.piece === prompt.about.piece);
  switch (prompt.action) {
    case 'repeat-reading':
    case 'remeasure':
    case 'refit':
    case 'visit':
      return `/patients/${patientId}/visits/new`;
    case 'ask':
      return `/patients/${patientId}/course`;
    case 'order':
      return `/patients/${patientId}/orders/new${orderQuery(prompt)}`;
    case 'release':
    case 'first-fit':
    case 'let-out':
      return piece ? `/patients/${patientId}/pieces/${piece.pieceId}` : `/patients/${patientId}`;
    default:
      return `/patients/${patientId}`;
  }
}

/** Why an order is written, by the rule that asked for it. */
const REASON_OF_RULE: Readonly<Record<string, OrderReason>> = {
  'end-of-life': 'worn out',
};

/** Which piece the order follows and why it is written, as far as the prompt says it. */
function orderQuery({ about, rule }: Pick<Prompt, 'about' | 'rule'>): string {
  const reason = REASON_OF_RULE[rule];
  const query = new URLSearchParams({ ...(about.piece ? { after: about.piece } : {}), ...(reason ? { reason } : {}) }).toString();
  return query ? `?${query}` : '';
}

const DATE_WORDS: Readonly<Record<DateKind, string>> = {
  visit: 'Start the visit',
  remeasure: 'Measure now',
  order: 'Start the order',
  delivery: 'It came',
  'first-fit': 'Record the check',
  call: 'Note the call',
  'end-of-life': 'Start the order',
  ask: 'Open the course',
  referral: 'Write the next referral down',
  booking: 'Start the visit',
  'not-said': 'Open the bookings',
  missed: 'Open the bookings',
  'call-back': 'Say what was done',
  reply: 'Say what was done',
};

/** Where a date of the schedule is seen to, and the words of the button that leads there. */
export function doneAt(
  patientId: string,
  { kind, piece: label }: Pick<ScheduledDate, 'kind' | 'piece'>,
  pieces: readonly { readonly piece: string; readonly pieceId: string }[],
): { readonly words: string; readonly to: string } {
  const words = DATE_WORDS[kind];
  if (kind === 'ask') return { words, to: `/patients/${patientId}/course` };
  if (kind === 'referral') return { words, to: `/patients/${patientId}/work` };
  if (kind === 'call-back' || kind === 'reply') return { words, to: `/patients/${patientId}/replies` };
  if (kind === 'not-said' || kind === 'missed') return { words, to: `/patients/${patientId}/bookings` };
  if (kind === 'visit' || kind === 'remeasure' || kind === 'booking') return { words, to: `/patients/${patientId}/visits/new` };
  if (kind === 'order' || kind === 'end-of-life')
    return { words, to: `/patients/${patientId}/orders/new${label ? `?after=${encodeURIComponent(label)}` : ''}` };
  const piece = pieces.find((one) => one.piece === label);
  return { words, to: piece ? `/patients/${patientId}/pieces/${piece.pieceId}` : `/patients/${patientId}` };
}

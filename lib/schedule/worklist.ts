import type { PatientAnalysis } from '../analysis/analyse-patient';
import { isAtRest } from '../course/day-to-ask';
import { limbInWords } from '../ladder/limb';
import type { Policy } from '../limits/policy';
import { inputsOf, type MergedPrompt } from '../prompts/decide-prompts';
import type { PromptAction } from '../prompts/prompt';
import type { WornPlace } from '../record/patient-record';
import { NOBODY_TO_RING, ringWords, type WorkFacts } from '../record/work-facts';
import { addDays, type CalendarDay, daysBetween } from '../units/calendar-day';
import { capitalized } from '../units/capitalized';
import { withoutFullStop } from '../units/without-full-stop';
import { asksFor } from './dates-of-prompts';
import type { DateKind, ScheduledDate } from './scheduled-date';

/** What a line of the worklist asks for; each kind has its own mark. */
export const WORK_KINDS = ['refer', 'order', 'first-fit', 'remeasure', 'visit', 'call', 'delivery'] as const;
export type WorkKind = (typeof WORK_KINDS)[number];

/** One line of the worklist: what, by when, and why. */
export type WorkItem = {
  /** Names the line among its patient's: `prompt:` and its cause, or the key of a date. */
  readonly key: string;
  readonly kind: WorkKind;
  readonly due: CalendarDay;
  readonly title: string;
  /** One sentence, as prompts say theirs. */
  readonly reason: string;
  readonly limb: WornPlace | null;
  /** The prompt behind the line; null for a date of the schedule. */
  readonly prompt: { readonly cause: string; readonly inputs: string } | null;
};

export type WorkGroup = 'overdue' | 'this-week' | 'later';

const KINDS: Readonly<Record<PromptAction, WorkKind>> = {
  refer: 'refer',
  review: 'remeasure',
  'repeat-reading': 'remeasure',
  remeasure: 'remeasure',
  refit: 'remeasure',
  'let-out': 'remeasure',
  release: 'order',
  order: 'order',
  'first-fit': 'first-fit',
  visit: 'visit',
  ask: 'call',
};

const TITLES: Readonly<Record<PromptAction, (limb: string, piece: string) => string>> = {
  refer: () => 'Tell the prescriber today',
  review: (limb) => `Review the ${limb}`,
  'repeat-reading': (limb) => `Measure the ${limb} again`,
  remeasure: (limb) => `Remeasure the ${limb}`,
  refit: (limb) => `Remeasure and refit the ${limb}`,
  'let-out': (limb, piece) => `Let out ${piece}, ${limb}`,
  release: (limb, piece) => `Release ${piece}, ${limb}`,
  order: (limb) => `Order for the ${limb}`,
  'first-fit': (_, piece) => `Record the first fit of ${piece}`,
  visit: () => 'Book the visit',
  ask: () => 'Ask whether care goes on',
};

/** Dates that are lines of the worklist, each under its mark. The end of a piece's life has its order-by date before it. */
const LINES_OF_DATES: Partial<Record<DateKind, { kind: WorkKind; title: (limb: string, piece: string) => string }>> = {
  visit: { kind: 'visit', title: () => 'Visit' },
  remeasure: { kind: 'remeasure', title: (limb) => `Measure the ${limb} for the order` },
  order: { kind: 'order', title: (limb) => `Order for the ${limb}` },
  delivery: { kind: 'delivery', title: (_, piece) => `Expect ${piece}` },
  'first-fit': { kind: 'first-fit', title: (_, piece) => `First fit of ${piece}` },
  ask: { kind: 'call', title: () => 'Ask whether care goes on' },
  call: { kind: 'call', title: (_, piece) => `Call about the wear-in of ${piece}` },
  referral: { kind: 'call', title: () => 'Ask for the next referral' },
  booking: { kind: 'visit', title: () => 'Visit, booked' },
  'not-said': { kind: 'call', title: () => 'Was the booked visit kept?' },
  missed: { kind: 'call', title: () => 'Call about a missed visit' },
  'call-back': { kind: 'call', title: () => 'Call back: the family asks to be rung' },
  reply: { kind: 'call', title: () => 'Look at what the family sent' },
};

/** Dates about which somebody is rung: the line says whom. */
const RUNG: readonly DateKind[] = ['call', 'ask', 'missed', 'not-said', 'call-back'];

/** Key of the line that asks for the first ladder: it ends by itself when one is taped, and cannot be moved. */
export const FIRST_LADDER = 'first-ladder';

/** A patient's prompts and dates as the worklist needs them: `raised` are all prompts, `open` those not answered. */
export type Work = {
  readonly analysis: PatientAnalysis;
  readonly raised: readonly MergedPrompt[];
  readonly open: readonly MergedPrompt[];
  readonly dates: readonly ScheduledDate[];
};

/**
 * The lines of one patient: every open prompt, and every date that no prompt asks for, the most pressing first.
 *
 * A date whose prompt was answered is no line either: the answer holds for both. A referral comes before all and is never later; a family that asks to be rung comes next.
 * Shape: prompts and dates; lines by day, referrals in front. Example: an order by 27 November and a visit on 5 January.
 */
export function workItems({ analysis: { record, policy, today }, raised, open, dates }: Work): WorkItem[] {
  const items = open.map((prompt) => promptLine(prompt, policy, today, record.facts));
  for (const date of dates) {
    const line = LINES_OF_DATES[date.kind];
    const asked = raised.some((prompt) => asksFor(prompt, date)) && !date.moved;
    if (!line || asked || open.some((prompt) => asksFor(prompt, date))) continue;
    const { key, day, why, limb } = date;
    const ring = RUNG.includes(date.kind) ? (ringWords(record.facts) ?? NOBODY_TO_RING) : undefined;
    const reason = `${date.moved ? `Moved by hand: ${withoutFullStop(date.moved.reason)}; ${why}` : capitalized(why)}.${ring ? ` ${ring}.` : ''}`;
    const title = line.title(limb ? limbInWords(limb.limb, limb.side) : '', `piece ${date.piece}`);
    items.push({ key, kind: line.kind, due: day, title, reason, limb, prompt: null });
  }
  if (record.visits.length === 0 && !isAtRest(record.phases ?? [], today))
    items.push({
      key: FIRST_LADDER,
      kind: 'visit',
      due: today,
      title: 'Measure the first ladder',
      reason: 'No visit on record yet.',
      limb: record.affected[0] ?? null,
      prompt: null,
    });
  return items.sort((one, other) => rankOf(one) - rankOf(other) || one.due.localeCompare(other.due) || one.key.localeCompare(other.key));
}

/** A referral stands before all, then who asks to be rung: the list of a day shows the first line of a patient. */
function rankOf({ kind, key }: WorkItem): number {
  if (kind === 'refer') return 0;
  return key.startsWith('call-back:') ? 1 : 2;
}

function promptLine(prompt: MergedPrompt, policy: Policy, today: CalendarDay, facts: WorkFacts | null | undefined): WorkItem {
  const ring = prompt.action === 'visit' || prompt.action === 'ask' ? ringWords(facts) : undefined;
  const limb = prompt.about.limb ? limbInWords(prompt.about.limb.limb, prompt.about.limb.side) : 'patient';
  const piece = prompt.about.piece ? `piece ${prompt.about.piece}` : 'the piece';
  const kind = KINDS[prompt.action];
  // Readings and refits are asked from the day they were taken.
  const asked = kind === 'remeasure' && prompt.due ? addDays(prompt.due, policy.readingGraceDays) : (prompt.due ?? today);
  return {
    key: `prompt:${prompt.cause}`,
    kind,
    due: kind === 'refer' && asked > today ? today : asked,
    title: TITLES[prompt.action](limb, piece),
    reason: `${prompt.begun ? 'Begun, not done yet. ' : ''}${prompt.facts[0] ?? prompt.title}${prompt.before ? ` ${prompt.before}` : ''}${ring ? ` ${ring}.` : ''}`,
    limb: prompt.about.limb ?? null,
    prompt: { cause: prompt.cause, inputs: inputsOf(prompt) },
  };
}

/** The earliest day on which any of a patient's lines is due, whichever stands first; so a referral of today hides no order of last week. */
export function earliestDue(first: WorkItem, items: readonly WorkItem[]): CalendarDay {
  return [first, ...items].map(({ due }) => due).sort()[0] ?? first.due;
}

/** The first day that is later: overdue before today, this week through the sixth day from today. Example: on Tuesday 1 December → 8 December. */
export function laterFrom(today: CalendarDay): CalendarDay {
  return addDays(today, 7);
}

/** Overdue before today; this week through the sixth day from today; later after that. Example: due in six days → `this-week`, in seven → `later`. */
export function groupOf(due: CalendarDay, today: CalendarDay): WorkGroup {
  const days = daysBetween(today, due);
  if (days < 0) return 'overdue';
  return days < 7 ? 'this-week' : 'later';
}

import type { PatientAnalysis } from '../analysis/analyse-patient';
import type { MergedPrompt } from '../prompts/decide-prompts';
import type { PromptAction } from '../prompts/prompt';
import { nextVisit, reviewInterval } from '../record/next-visit';
import type { LimbSide } from '../record/patient-record';
import { addDays, type CalendarDay, daysBetween, showDay } from '../units/calendar-day';

/** What a line of the worklist asks for; each kind has its own mark. */
export type WorkKind = 'refer' | 'order' | 'first-fit' | 'remeasure' | 'visit';

/** One line of the worklist: what, by when, and why. */
export type WorkItem = {
  readonly kind: WorkKind;
  readonly due: CalendarDay;
  readonly title: string;
  readonly reason: string;
  readonly limb: LimbSide | null;
};

export type WorkGroup = 'overdue' | 'this-week' | 'later';

const KINDS: Readonly<Record<PromptAction, WorkKind>> = {
  refer: 'refer',
  review: 'remeasure',
  'repeat-reading': 'remeasure',
  remeasure: 'remeasure',
  refit: 'remeasure',
  'let-out': 'remeasure',
  order: 'order',
  'first-fit': 'first-fit',
  visit: 'visit',
};

const TITLES: Readonly<Record<PromptAction, (limb: string, piece: string) => string>> = {
  refer: () => 'Tell the prescriber today',
  review: (limb) => `Review the ${limb}`,
  'repeat-reading': (limb) => `Tape the ${limb} again`,
  remeasure: (limb) => `Remeasure the ${limb}`,
  refit: (limb) => `Remeasure and refit the ${limb}`,
  'let-out': (limb, piece) => `Let out ${piece}, ${limb}`,
  order: (limb) => `Order for the ${limb}`,
  'first-fit': (_, piece) => `Record the first fit of ${piece}`,
  visit: () => 'Book the visit',
};

/** Readings and refits are asked from the day they were taken: this many days pass before one counts as overdue. Clinic default. */
const READING_GRACE_DAYS = 7;

/**
 * The lines of one patient: every open prompt, and the next visit when nothing else asks for one.
 *
 * Shape: an analysis and its open prompts; lines by due day. Example: an order by 27 November and a visit on 5 January.
 */
export function workItems(analysis: PatientAnalysis, prompts: readonly MergedPrompt[]): WorkItem[] {
  const { record, policy, today } = analysis;
  const items = prompts.map((prompt): WorkItem => {
    const limb = prompt.about.limb ? `${prompt.about.limb.side} ${prompt.about.limb.limb}` : 'patient';
    const piece = prompt.about.piece ? `piece ${prompt.about.piece}` : 'the piece';
    const kind = KINDS[prompt.action];
    const due = kind === 'remeasure' && prompt.due ? addDays(prompt.due, READING_GRACE_DAYS) : (prompt.due ?? today);
    return {
      kind,
      due,
      title: TITLES[prompt.action](limb, piece),
      reason: prompt.facts[0] ?? prompt.title,
      limb: prompt.about.limb ?? null,
    };
  });
  const visit = nextVisit(record, policy);
  const last = record.visits.at(-1)?.day;
  if (visit && last && visit >= today && !items.some((item) => item.kind === 'visit')) {
    items.push({
      kind: 'visit',
      due: visit,
      title: 'Visit',
      reason: `every ${reviewInterval(record, last, policy)} days, last ${showDay(last)}`,
      limb: null,
    });
  }
  if (!last)
    items.push({
      kind: 'visit',
      due: today,
      title: 'Tape the first ladder',
      reason: 'no visit on record yet',
      limb: record.affected[0] ?? null,
    });
  return items.sort((one, other) => one.due.localeCompare(other.due));
}

/** Overdue before today; this week through the sixth day from today; later after that. A referral is never later. */
export function groupOf(item: WorkItem, today: CalendarDay): WorkGroup {
  const days = daysBetween(today, item.due);
  if (days < 0) return 'overdue';
  return days < 7 || item.kind === 'refer' ? 'this-week' : 'later';
}

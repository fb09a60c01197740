import { analysePatient, type PatientAnalysis } from '../analysis/analyse-patient';
import { isBookedFor } from '../diary/booking';
import { type Diary, EVERY_DAY } from '../diary/diary';
import type { Side } from '../ladder/limb';
import type { Policy } from '../limits/policy';
import { type MergedPrompt, mergeByCause, openPrompts, type PromptAnswer, raisePrompts } from '../prompts/decide-prompts';
import type { Prompt } from '../prompts/prompt';
import type { ReviewedRecord } from '../record/next-visit';
import { limbOf, type WornPlace } from '../record/patient-record';
import { heightOnLimb } from '../trend/limb-series';
import type { CalendarDay } from '../units/calendar-day';
import { byMovedDates } from './dates-of-prompts';
import { datesOnWorkingDays, promptsOnWorkingDays } from './on-working-days';
import { patientSchedule } from './patient-schedule';
import type { MovedDate, ScheduledDate } from './scheduled-date';
import { withMoved } from './with-moved';
import { type WorkItem, workItems } from './worklist';

/** A small outline's figures for a list row. */
export type RowOutline = { readonly side: Side; readonly heightsMm: readonly number[]; readonly girthsMm: readonly number[] };

/** All that is to be done for a patient on a day: prompts raised and still open, dates, and the lines of the worklist. */
export type PatientWork = {
  readonly analysis: PatientAnalysis;
  readonly raised: readonly MergedPrompt[];
  readonly open: readonly MergedPrompt[];
  readonly dates: readonly ScheduledDate[];
  readonly items: readonly WorkItem[];
};

/** What stands beside the record: answers to prompts and moved dates, each oldest first, and when the clinic works (left out: every day). */
export type Written = { readonly answers: readonly PromptAnswer[]; readonly moves: readonly MovedDate[]; readonly diary?: Diary };

/** Analyses a patient and says what is to be done. The same for a screen of one patient and for the stored worklist. */
export function patientWork(
  record: ReviewedRecord,
  { answers, moves, diary = EVERY_DAY }: Written,
  policy: Policy,
  today: CalendarDay,
): PatientWork {
  const analysis = analysePatient(record, policy, today);
  const dates = datesOnWorkingDays(withMoved(patientSchedule({ ...analysis, record }), moves), diary, today);
  const answeredByBooking = ({ action, due }: Prompt): boolean => action === 'visit' && isBookedFor(due ?? today, record, policy, today);
  const raised = mergeByCause(raisePrompts(analysis).filter((prompt) => !answeredByBooking(prompt)));
  const open = promptsOnWorkingDays(openPrompts(byMovedDates(raised, dates, policy, today), answers, today), diary, today);
  return { analysis, raised, open, dates, items: workItems({ analysis, raised, open, dates }) };
}

/** The outline of the limb a line is about, else of the affected one, from its newest ladder; null when none was taped. Whole millimetres. */
export function outlineFor(limb: WornPlace | null, { limbs }: PatientAnalysis): RowOutline | null {
  if (limb && !limbOf(limb)) return null;
  const shown =
    limbs.find(({ series, affected }) => (limb ? series.limb === limb.limb && series.side === limb.side : affected)) ?? limbs[0];
  const newest = shown?.series.visits.at(-1);
  if (!shown || !newest) return null;
  const { placesMm, girthsMm } = newest.placed.line;
  return {
    side: shown.series.side,
    heightsMm: placesMm.map((place) => Math.round(heightOnLimb(newest, place))),
    girthsMm: girthsMm.map(Math.round),
  };
}

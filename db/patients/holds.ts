import { LIFTED_CARD, type Lifted, liftedInWords, type Stop, stopsOn, UNASKED_CARD } from '@/lib/cautions/hold';
import type { CardAnswered } from '@/lib/cautions/read-caution-form';
import type { AnsweredQuestion } from '@/lib/record/order';
import type { Piece, WornPlace } from '@/lib/record/patient-record';
import { type CalendarDay, calendarDay } from '@/lib/units/calendar-day';
import type { Statement } from '../audit/statement';
import type { Therapist } from '../therapist';
import { inTransaction, type Written } from '../transaction';
import { cautionSteps, cautionsOfPatients } from './cautions';
import { restingStop } from './course';
import { changesOf, invalidateWorkFrom } from './invalidate-work';

/** What a person said at a hand-over: stops lifted, and why cautions were not asked where some were not. */
export type HandOver = {
  readonly day: CalendarDay;
  readonly lifted: readonly Lifted[];
  readonly unasked: { readonly cards: readonly string[]; readonly why: string } | null;
};

/** A write that a caution holds back: nothing was written. */
export type Held = { readonly kind: 'held'; readonly stops: readonly Stop[] };

/** Whether this change hands a piece over: it comes, is kept at its first fit, or is worn for the first time. */
export function handsOver(before: Piece | null, after: Piece): boolean {
  if (after.retired !== null) return false;
  return (['delivered', 'firstFit', 'firstWorn'] as const).some((step) => after[step] && !before?.[step]);
}

/**
 * Writes what cautions can hold back, on the cautions as they stand at that moment.
 *
 * The stops are read, and the write then counts on the patient's record being as it was before that reading: an answer given in between
 * makes it touch no row, and the stops are read anew. Three such races in a row end as a stale write does.
 */
export async function writeUnlessHeld(
  therapist: Therapist,
  patientId: string,
  notLifted: () => Promise<readonly Stop[]>,
  statements: readonly Statement[],
): Promise<Written | Held> {
  let written: Written = { kind: 'untouched', step: 0 };
  for (let tries = 0; tries < 3; tries++) {
    const changes = await changesOf(therapist, patientId);
    const stops = await notLifted();
    if (stops.length > 0) return { kind: 'held', stops };
    written = await inTransaction([...statements, invalidateWorkFrom(therapist, patientId, changes)]);
    if (written.kind === 'written' || written.step !== statements.length) return written;
  }
  return written;
}

/**
 * Stops of a limb that stand and that nobody has lifted: asked of the database at the write, whatever the page knew. Where the course rests on
 * the day, that one cannot be lifted.
 */
export async function stopsNotLifted(
  therapist: Therapist,
  patientId: string,
  limb: WornPlace,
  lifted: readonly Pick<Lifted, 'key'>[],
  at: Date,
): Promise<readonly Stop[]> {
  const resting = await restingStop(therapist, patientId, dayOf(at));
  if (resting.length > 0) return resting;
  const stops = stopsOn(await cautionsOfPatients(therapist, [patientId]), limb);
  return stops.filter(({ key }) => !lifted.some((one) => one.key === key));
}

/** The day of a moment, in universal time: a course rests from a day on, and a clinic's own day differs from it for hours at most. */
export function dayOf(at: Date): CalendarDay {
  return calendarDay(at.toISOString().slice(0, 10));
}

/** The questions of an order that were answered in words, as the stops they lift. */
export function liftedBy(questions: readonly AnsweredQuestion[]): readonly Pick<Lifted, 'key'>[] {
  return questions.filter(({ answer }) => answer.trim() !== '');
}

/** The steps that keep what was said at a hand-over, as rows of their own among the patient's caution answers. */
export function handOverSteps(therapist: Therapist, patientId: string, what: string, said: HandOver, at: Date): readonly Statement[] {
  const row = (card: string, wording: string, words: string): CardAnswered => ({
    card,
    cardVersion: '1',
    answer: 'not-known',
    wording,
    words,
    figures: {},
  });
  const answers = [
    ...said.lifted.map((one) => row(LIFTED_CARD, `Handed over although held: ${what}. ${one.key}`, liftedInWords(one))),
    ...(said.unasked ? [row(UNASKED_CARD, `Handed over: ${what}. ${said.unasked.cards.join('; ')}`, said.unasked.why)] : []),
  ];
  if (answers.length === 0) return [];
  return cautionSteps(therapist, patientId, { visitId: null, day: said.day, answers }, at, undefined, 'hold lifted by override');
}

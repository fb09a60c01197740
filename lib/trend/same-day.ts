import type { Doubt } from '../ladder/doubt';
import { limbInWords } from '../ladder/limb';
import type { NoAnswer } from '../outcome';
import { showDay } from '../units/calendar-day';
import type { SeriesVisit } from './series-visit';

type AtVisit = Pick<SeriesVisit, 'visit' | 'ladder'>;

/** The question at a second ladder of one limb on one day that does not say what it is for. Shape: the ladders in order of time, and which. */
export function sameDayDoubt(all: readonly AtVisit[], index: number): Doubt | undefined {
  const [before, now] = [all[index - 1], all[index]];
  if (!now || before?.visit.day !== now.visit.day || now.visit.occasion) return undefined;
  const limb = limbInWords(now.ladder.limb, now.ladder.side);
  const message = `Measured a second time? The ${limb} has two ladders of ${showDay(now.visit.day)}; say whether the second was to see how well the tape repeats, or after a treatment.`;
  return { kind: 'same-day', distanceMm: null, message };
}

/**
 * Why two ladders of one day are not compared; undefined where the later one was measured after a treatment of that day.
 *
 * Example: two ladders of 3 May without a word of treatment: not compared.
 */
export function notCompared(earlier: AtVisit, later: AtVisit): NoAnswer | undefined {
  if (earlier.visit.day !== later.visit.day || later.visit.occasion === 'after-treatment') return undefined;
  return { noAnswer: `Both were measured on ${showDay(later.visit.day)}: that tells how well the tape repeats, not how the limb changed.` };
}

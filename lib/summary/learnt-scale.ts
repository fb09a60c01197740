import type { LearntScale } from '../analysis/record-error-scale';
import { type CalendarDay, showDay } from '../units/calendar-day';

type Learnt = Pick<LearntScale, 'variance' | 'n' | 'range'>;

/** A factor on a variance, as it is shown and kept: `1.12`. */
export function showFactor(factor: number): string {
  return factor.toFixed(2);
}

/** What was learnt and from how much: `1.12 (0.95 to 1.31 in nineteen of twenty clinics like this), from 46 limbs measured three times or more`. */
export function learntInWords({ variance, n, range }: Learnt): string {
  const within = range ? ` (${showFactor(range[0])} to ${showFactor(range[1])} in nineteen of twenty clinics like this)` : '';
  return `${showFactor(variance)}${within}, from ${n} limb${n === 1 ? '' : 's'} measured three times or more`;
}

/** The reason that is kept with the figure: `Learnt from 46 limbs on 30 Nov 2026 (95 % 0.95 to 1.31).` */
export function reasonOfLearning({ n, range }: Learnt, day: CalendarDay): string {
  const within = range ? ` (95 % ${showFactor(range[0])} to ${showFactor(range[1])})` : '';
  return `Learnt from ${n} limb${n === 1 ? '' : 's'} on ${showDay(day)}${within}.`;
}

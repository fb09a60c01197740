import { describe, expect, it } from 'vitest';
import { analysePatient } from '@/lib/analysis/analyse-patient';
import type { Ladder } from '@/lib/ladder/ladder';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { isNoAnswer } from '@/lib/outcome';
import { calendarDay } from '@/lib/units/calendar-day';
import { ladderOf, recordOf, visitOf } from '../made-up-ladder';

/** Girths of a made-up adult leg every 4 cm above the ankle crease; a calf, a knee and a thigh. */
const LEG = [22.5, 22.8, 25, 28.5, 32, 35, 36.5, 36, 35, 36.8, 39.5, 43, 46.5, 49.8, 52.5, 54.5];

function legAt(cmAboveCrease: number): number {
  const below = Math.floor(cmAboveCrease / 4);
  const share = cmAboveCrease / 4 - below;
  return (LEG[below] ?? 0) * (1 - share) + (LEG[Math.min(below + 1, 15)] ?? 0) * share;
}

/** The leg taped from a zero so many cm above its crease. */
const taped = (zeroCm: number): Ladder =>
  ladderOf({
    girths: Array.from({ length: 13 }, (_, rung) => [4 * (rung + 1), Math.round(legAt(4 * (rung + 1) + zeroCm) * 10) / 10] as const),
  });

function newestOf(later: Ladder) {
  const analysis = analysePatient(
    recordOf([visitOf('2026-01-01', [taped(0)], { weight: '70 kg' }), visitOf('2026-02-01', [later], { weight: '70 kg' })]),
    DEFAULT_POLICY,
    calendarDay('2026-02-01'),
  );
  const judged = analysis.limbs[0]?.visits[1]?.sinceLast;
  if (!judged || isNoAnswer(judged)) throw new Error('not comparable');
  return judged;
}

describe('a ladder whose zero was taken 3 cm too high', () => {
  it('is asked about, about 3 cm, and nothing is corrected', () => {
    const { shift, measured, realigned } = newestOf(taped(3)).change;
    expect(shift?.finding).toBe('zero-moved');
    expect(shift?.mm).toBeGreaterThan(25);
    expect(shift?.mm).toBeLessThan(35);
    expect(Math.abs((realigned?.volume.ratio ?? 0) - 1)).toBeLessThan(0.01);
    expect(measured.volume.ratio).toBeGreaterThan(1.05);
  });

  it('reads as the same limb once the therapist chose to move the zero back', () => {
    const choice = { choice: 'moved-back', shiftMm: 30, by: 'RA', at: '2026-02-01T10:00:00Z' } as const;
    const judged = newestOf({ ...taped(3), zeroChoice: choice });
    expect(judged.change.shift?.finding).toBeNull();
    expect(judged.change.measured.volume.ratio).toBeCloseTo(1, 2);
    expect(judged.verdict).toBe('no-clear-change');
  });

  it('is not asked about again once the therapist chose to keep it as recorded', () => {
    const choice = { choice: 'as-recorded', shiftMm: 30, by: 'RA', at: '2026-02-01T10:00:00Z' } as const;
    const judged = newestOf({ ...taped(3), zeroChoice: choice });
    expect(judged.change.shift?.finding).toBeNull();
    expect(judged.change.measured.volume.ratio).toBeGreaterThan(1.05);
  });
});

import { analysePatient, type PatientAnalysis } from '@/lib/analysis/analyse-patient';
import type { Ladder } from '@/lib/ladder/ladder';
import { DEFAULT_POLICY, type Policy } from '@/lib/limits/policy';
import { raisePrompts } from '@/lib/prompts/decide-prompts';
import type { Prompt } from '@/lib/prompts/prompt';
import type { PatientRecord, Piece } from '@/lib/record/patient-record';
import { calendarDay } from '@/lib/units/calendar-day';
import { ladderOf } from '../made-up-ladder';

/** A plain leg, every 4 cm from the ankle crease to a fold at 60 cm with the knee at 28, all girths times a factor. */
export const LEG_CM = [22, 22.6, 25, 28.5, 32, 35, 36.5, 36, 35, 36.8, 39.5, 43, 46.5, 49.8, 52.5] as const;

export function legOf(
  factor = 1,
  rest: Partial<{ side: 'left' | 'right'; stretch: number; from: number; extraCm: number; at: (placeCm: number) => number }> = {},
): Ladder {
  const stretch = rest.stretch ?? 1;
  return ladderOf({
    side: rest.side ?? 'left',
    girths: LEG_CM.map((girth, rung): [number, number] => {
      const place = Number((4 * (rung + 1) * stretch).toFixed(3));
      return [place, Number((girth * factor + (rest.at?.(place) ?? 0)).toFixed(2))];
    }),
    landmarks: { knee: Number((28 * stretch).toFixed(3)), 'gluteal-fold': Number((60 * stretch).toFixed(3)) },
  });
}

/** A piece of the left leg from the crease to the knee, cut on a day, first worn a fortnight later unless it says otherwise. */
export function pieceOf(cutFrom: string, rest: Partial<Piece> = {}): Piece {
  return {
    piece: '1',
    limb: 'leg',
    side: 'left',
    covers: { from: 'ankle-crease', to: 'knee' },
    cutFrom: calendarDay(cutFrom),
    reductionPct: 15,
    convention: 'C(1-r)',
    allowance: null,
    firstWorn: null,
    lifeDays: 90,
    leadDays: 14,
    retired: null,
    ...rest,
  };
}

export function analysed(record: PatientRecord, today: string, policy: Partial<Policy> = {}): PatientAnalysis {
  return analysePatient(record, { ...DEFAULT_POLICY, ...policy }, calendarDay(today));
}

/** The prompts of one rule. */
export function promptsOf(rule: string, record: PatientRecord, today: string, policy: Partial<Policy> = {}): Prompt[] {
  return raisePrompts(analysed(record, today, policy)).filter((prompt) => prompt.rule === rule);
}

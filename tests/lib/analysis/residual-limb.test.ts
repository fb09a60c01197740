import { describe, expect, it } from 'vitest';
import { expectedShrinking, residualVolume } from '@/lib/analysis/residual-limb';
import { recordMeasureDoubts } from '@/lib/doubts/record-measure-doubts';
import { analysisDocument } from '@/lib/exchange/analysis-document';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { isNoAnswer } from '@/lib/outcome';
import type { NamedMeasure } from '@/lib/record/patient-record';
import { calendarDay } from '@/lib/units/calendar-day';
import { cm, ladderOf, recordOf, visitOf } from '../made-up-ladder';
import { analysed, promptsOf } from '../prompts/made-up-piece';

const length = (value: number, side: 'left' | 'right' = 'left'): NamedMeasure => ({
  part: 'residual-limb',
  side,
  measure: 'residual-leg-length',
  length: cm(value),
});
const ladder = (rest: Partial<Parameters<typeof ladderOf>[0]> = {}) =>
  ladderOf({
    zero: 'middle of the patellar tendon',
    direction: 'down',
    girths: [
      [2, 32],
      [7, 28],
      [12, 24],
    ],
    ...rest,
  });
const found = (taped: ReturnType<typeof ladder>, measures: readonly NamedMeasure[]) => {
  const analysis = analysed(recordOf([visitOf('2026-11-02', [taped], { measures })]), '2026-11-20');
  const limb = analysis.limbs[0];
  const visit = limb?.visits[0];
  if (!limb || !visit) throw new Error('no limb');
  return residualVolume(limb, visit);
};

describe('a residual limb', () => {
  it('has its end beyond the last girth, by a named form and its range, to the printed digits', () => {
    // Research page, section 2: last girth 24 cm, end 4 cm beyond: cone 61.115, paraboloid 91.673, half-ellipsoid 122.231 ml.
    const one = found(ladder(), [length(16)]);
    if (!one || isNoAnswer(one)) throw new Error(JSON.stringify(one));
    expect([one.capLowMl, one.capMl, one.capHighMl].map((ml) => ml.toFixed(3))).toEqual(['61.115', '91.673', '122.231']);
    // Frusta by hand: 5 cm (32² + 32·28 + 28²)/12π + 5 cm (28² + 28·24 + 24²)/12π.
    const frusta = (5 * (32 ** 2 + 32 * 28 + 28 ** 2) + 5 * (28 ** 2 + 28 * 24 + 24 ** 2)) / (12 * Math.PI);
    expect(one.ladderMl).toBeCloseTo(frusta, 6);
    expect(one.wholeMl).toBeCloseTo(frusta + one.capMl, 9);
    expect(one.words).toContain('paraboloid');
  });

  it('is counted up from its end as well; from elsewhere upward, or with an end before the last girth, there is no answer', () => {
    const up = ladder({
      zero: 'end of the residual limb',
      direction: 'up',
      girths: [
        [4, 24],
        [9, 28],
      ],
    });
    const one = found(up, [length(20)]);
    expect(one && !isNoAnswer(one) && one.capMl.toFixed(3)).toBe('91.673');
    expect(found(ladder({ direction: 'up' }), [length(16)])).toEqual({ noAnswer: expect.stringContaining('up from the end') });
    expect(found(ladder(), [length(11)])).toEqual({ noAnswer: expect.stringContaining('before its last girth') });
    expect(found(ladder(), [])).toBeUndefined();
    expect(found(ladder(), [length(16, 'right')])).toBeUndefined();
  });

  it('stands in the document of the command line, and only where there is one', () => {
    const analysis = (measures: readonly NamedMeasure[]) => {
      const record = recordOf([visitOf('2026-11-02', [ladder()], { measures })]);
      const scale = { variance: 1, n: 0 } as Parameters<typeof analysisDocument>[3];
      return JSON.parse(JSON.stringify(analysisDocument([record], DEFAULT_POLICY, calendarDay('2026-11-20'), scale)));
    };
    expect(analysis([length(16)]).patients[0].residualLimbs[0]).toMatchObject({ limb: 'leg', side: 'left', capMl: 91.673 });
    expect(analysis([]).patients[0]).not.toHaveProperty('residualLimbs');
  });

  it('is expected to shrink with the logarithm of time, and not after a year and a half', () => {
    // Tantua 2014 as the research page has it: 200.5 ml (9.7 % of the start) per ln(week): week 4 to 12 is 220.3 ml.
    expect((200.5 * Math.log(12 / 4)).toFixed(1)).toBe('220.3');
    expect((expectedShrinking(28, 84) / 0.097) * 200.5).toBeCloseTo(220.3, 1);
    expect(expectedShrinking(600, 900)).toBe(0);
  });

  it('is to be measured again once 5 % are expected to be gone: 19 days after week four, months later on', () => {
    const record = (amputated: string) =>
      recordOf([visitOf('2026-11-02', [ladder()], { measures: [length(16)] })], {
        events: [{ day: calendarDay(amputated), kind: 'operation', words: 'amputation below the knee' }],
      });
    // 28 e^(0.05 / 0.097) = 46.9 days after the operation: 18.9 days after the visit.
    const [prompt] = promptsOf('residual-limb-shrinks', record('2026-10-05'), '2026-11-21');
    expect(prompt?.due).toBe('2026-11-21');
    expect(promptsOf('residual-limb-shrinks', record('2026-10-05'), '2026-11-20')).toEqual([]);
    expect(promptsOf('residual-limb-shrinks', record('2024-10-05'), '2027-11-20')).toEqual([]);
    expect(promptsOf('residual-limb-shrinks', { ...record('2026-10-05'), events: [] }, '2026-12-31')).toEqual([]);
  });

  it('of both sides may end where they end: no question of the one beside the other', () => {
    const record = recordOf([
      visitOf('2026-11-02', [ladder()], { height: '165', weight: '70', measures: [length(9), length(24, 'right')] }),
    ]);
    expect(recordMeasureDoubts(record, DEFAULT_POLICY).size).toBe(0);
  });
});

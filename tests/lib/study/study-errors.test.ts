import { describe, expect, it } from 'vitest';
import { isNoAnswer } from '@/lib/outcome';
import { type SpreadFound, studyErrors } from '@/lib/study/study-errors';
import { normalFrom } from './normal-from';

const HEIGHTS = Array.from({ length: 12 }, (_, at) => 60 + 40 * at);
/** A leg: narrow at the ankle, the calf, narrower at the knee, wider above; so that its slope changes sign. */
const girthAt = (x: number, size: number) => size * (250 + 0.22 * x + 55 * Math.sin(x / 75));
const PLANTED = { reading: 2, same: 0.006, other: 0.02, placing: 6 };

/** Tapings with planted spreads: the truth is what this test put in. */
function planted(seed: number, limbs: number, measurers: number, repeats: number) {
  const draw = normalFrom(seed);
  const hands = Array.from({ length: measurers }, () => Math.sqrt(PLANTED.other ** 2 - PLANTED.same ** 2) * draw());
  return Array.from({ length: limbs }, () => {
    const size = 1 + 0.1 * draw();
    return hands.map((hand) =>
      Array.from({ length: repeats }, () => {
        const [tension, shift] = [hand + PLANTED.same * draw(), PLANTED.placing * draw()];
        return HEIGHTS.map((x) => girthAt(x + shift, size) * (1 + tension) + PLANTED.reading * draw());
      }),
    );
  });
}

describe('errors of a study against planted ones', () => {
  it('each planted spread lies in its range in most studies, and the middle of many studies is near it', () => {
    const found = Array.from({ length: 60 }, (_, seed) => studyErrors(planted(seed + 1, 8, 5, 3), HEIGHTS));
    const check = (of: 'reading' | 'tensionSame' | 'tensionOther' | 'placing', truth: number, within: number) => {
      const told = found.map((one) => one[of]).filter((one): one is SpreadFound => !isNoAnswer(one));
      expect(told.length).toBeGreaterThan(50);
      const rms = Math.sqrt(told.reduce((sum, { sd }) => sum + sd ** 2, 0) / told.length);
      expect(Math.abs(rms / truth - 1)).toBeLessThan(within);
      const held = told.filter(({ low, high }) => low <= truth && truth <= high).length / told.length;
      expect(held).toBeGreaterThan(0.85);
    };
    check('reading', PLANTED.reading, 0.05);
    check('tensionSame', PLANTED.same, 0.1);
    check('tensionOther', PLANTED.other, 0.15);
    check('placing', PLANTED.placing, 0.1);
  });

  it('says nothing where it cannot tell, with the reason', () => {
    const few = studyErrors(
      planted(3, 3, 2, 2).map((limb) => limb.map((one) => one.map((taping) => taping.slice(0, 4)))),
      HEIGHTS.slice(0, 4),
    );
    expect(few.reading).toEqual({ noAnswer: 'Tape at five heights or more.' });
    const cylinder = studyErrors(
      planted(3, 3, 2, 2).map((limb) => limb.map((one) => one.map((taping) => taping.map((_, at) => 300 + (at % 2) * 0.1)))),
      HEIGHTS,
    );
    expect(isNoAnswer(cylinder.tensionSame)).toBe(true);
  });
});

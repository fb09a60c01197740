import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { floorCheck } from '@/lib/ladder/floor-check';
import type { Ladder } from '@/lib/ladder/ladder';
import { printTable } from '@/tests/cohort/print-table';
import { seeded } from '@/tests/cohort/random';
import { cm, ladderOf } from '@/tests/lib/made-up-ladder';

/** Every tenth person of ANSUR II 2012 (tests/reference/body): heights above the floor in mm. */
const PEOPLE = readFileSync(path.resolve(import.meta.dirname, '../reference/body/ansur2_2012_limbs_every_tenth.csv'), 'utf8')
  .trim()
  .split('\n')
  .slice(1)
  .map((row) => row.split(','))
  .map((cells) => ({ stature: Number(cells[2]), malleolus: Number(cells[4]), crotch: Number(cells[6]) }));

/** Where the fold lies below the crotch and the crease above the lateral malleolus, cm: from memory of anatomy, wide on purpose. */
const FOLD_BELOW_CROTCH = 3;
const CREASE_ABOVE_MALLEOLUS = [0, 1.5, 3];

/** A ladder from the ankle crease to the fold in 4 cm rungs, with so many rungs too many at the top, and the fold's height above the floor. */
function taped(foldCm: number, creaseCm: number, tooMany: number): Ladder {
  const lengthCm = foldCm - creaseCm;
  const rungs = Math.floor(lengthCm / 4) + tooMany;
  const ladder = ladderOf({ girths: Array.from({ length: rungs }, (_, rung): [number, number] => [4 * (rung + 1), 30 + rung]) });
  return { ...ladder, floorToFold: cm(Number(foldCm.toFixed(1))) };
}

/** SD of reading the fold's height above the floor, cm: from memory, of a tape held along the leg. */
const FOLD_READING_CM = 0.5;

/** Shares of the people questioned with none to three rungs too many, the fold's height read with a little error. */
function questioned(above: number, byHeight: boolean): number[] {
  return [0, 1, 2, 3].map((tooMany) => {
    const random = seeded(20261125);
    const asked = PEOPLE.filter((person) => {
      const fold = person.crotch / 10 - FOLD_BELOW_CROTCH;
      const read = Math.round(10 * (fold + random.normal(FOLD_READING_CM))) / 10;
      const ladder = { ...taped(fold, person.malleolus / 10 + above, tooMany), floorToFold: cm(read) };
      return floorCheck(ladder, byHeight ? person.stature : undefined);
    });
    return asked.length / PEOPLE.length;
  });
}

describe('the floor check on real people', () => {
  const rows = [false, true].flatMap((byHeight) =>
    CREASE_ABOVE_MALLEOLUS.map((above) => ({ byHeight, above, asked: questioned(above, byHeight) })),
  );

  it('questions at most one of 608; with the body height it finds more ladders with one rung too many, and nearly every one with three', () => {
    printTable(
      `Floor check on ${PEOPLE.length} people of ANSUR II, per cent questioned`,
      ['body height', 'crease above malleolus, cm', 'right', 'one rung too many', 'two', 'three'],
      rows.map(({ byHeight, above, asked }) => [
        byHeight ? 'known' : 'not known',
        above,
        ...asked.map((share) => (100 * share).toFixed(1)),
      ]),
    );
    expect(PEOPLE).toHaveLength(608);
    for (const { asked } of rows) {
      expect(asked[0]).toBeLessThanOrEqual(1 / 608);
      // Three rungs are 12 cm, more than any ankle bone lies above the floor (ANSUR II: p99.9 about 9.5 cm).
      expect(asked[3]).toBeGreaterThan(0.98);
      expect(asked).toEqual([...asked].sort((one, other) => one - other));
    }
    // A known height only makes the foot sharper: of every kind of ladder at least as many are asked about, of one rung too many more.
    for (const [index, { asked }] of rows.slice(0, 3).entries())
      for (const [tooMany, share] of asked.entries()) expect(rows[index + 3]?.asked[tooMany]).toBeGreaterThanOrEqual(share);
    expect(rows[3]?.asked[1] ?? 0).toBeGreaterThan(rows[0]?.asked[1] ?? 1);
  });

  it('by hand: ladder 620 mm, fold 665 mm above the floor: 45 mm of foot pass at 1,400 mm, are asked at 1,700 mm (0.030 × 1,700 = 51)', () => {
    const ladder = { ...ladderOf({ girths: [[62, 50]] }), floorToFold: cm(66.5) };
    expect(floorCheck(ladder)).toBeUndefined();
    expect(floorCheck(ladder, 1400)).toBeUndefined();
    expect(floorCheck(ladder, 1700)?.message).toMatch(/^Were too many rungs taken at the top\?.*usually about 6\.8\scm/);
    const reaching = { ...ladder, landmarks: [{ landmark: 'gluteal-fold' as const, distance: cm(62) }] };
    expect(floorCheck(reaching, 1700)).toBeUndefined();
  });
});

import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { floorCheck } from '@/lib/ladder/floor-check';
import type { Ladder } from '@/lib/ladder/ladder';
import { printTable } from '@/tests/cohort/print-table';
import { cm, ladderOf } from '@/tests/lib/made-up-ladder';

/** Every tenth person of ANSUR II 2012 (tests/reference/body): heights above the floor in mm. */
const PEOPLE = readFileSync(path.resolve(import.meta.dirname, '../reference/body/ansur2_2012_limbs_every_tenth.csv'), 'utf8')
  .trim()
  .split('\n')
  .slice(1)
  .map((row) => row.split(','))
  .map((cells) => ({ sex: cells[1] ?? '', malleolus: Number(cells[4]), crotch: Number(cells[6]) }));

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

describe('the floor check on real people', () => {
  it('questions none of them, and nearly every ladder with three rungs too many; one or two too many it cannot always see', () => {
    const rows = CREASE_ABOVE_MALLEOLUS.map((above) => {
      const asked = [0, 1, 2, 3].map((tooMany) => {
        const ladders = PEOPLE.map((person) => taped(person.crotch / 10 - FOLD_BELOW_CROTCH, person.malleolus / 10 + above, tooMany));
        return ladders.filter((ladder) => floorCheck(ladder)).length / PEOPLE.length;
      });
      return { above, asked };
    });
    printTable(
      `Floor check on ${PEOPLE.length} people of ANSUR II, per cent questioned`,
      ['crease above malleolus, cm', 'right', 'one rung too many', 'two', 'three'],
      rows.map(({ above, asked }) => [above, ...asked.map((share) => (100 * share).toFixed(1))]),
    );
    for (const { asked } of rows) {
      expect(asked[0]).toBe(0);
      expect(asked[3]).toBeGreaterThan(0.99);
      expect(asked).toEqual([...asked].sort((one, other) => one - other));
    }
  });
});

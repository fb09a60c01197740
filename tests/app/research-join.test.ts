import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { partsOf, randomRank } from '@/app/_exchange/set-parts';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { calendarDay } from '@/lib/units/calendar-day';
import { anyFile } from '@/tests/properties/made-up-files';

const TODAY = calendarDay('2026-11-30');
const [file] = fc.sample(anyFile, { numRuns: 1, seed: 3 });
if (!file) throw new Error('nobody');

/** 400 patients of a clinic in the order of a raw export, and one research export of them: who stands where, under which id. */
const CLINIC = Array.from({ length: 400 }, (_, at) => ({ patientId: `p-${at}`, file }));

function researchExport(): readonly { readonly patientId: string; readonly subjectId: string }[] {
  const rank = randomRank();
  const partOf = partsOf({ research: true, defused: false }, DEFAULT_POLICY, TODAY);
  const ranked = [...CLINIC].sort((one, other) => (rank(one.patientId) < rank(other.patientId) ? -1 : 1));
  return ranked.map((one) => ({ patientId: one.patientId, subjectId: partOf(one).subjectId }));
}

describe('who tries to join a research set back', () => {
  it('by the order of its rows hits no more patients than chance does', () => {
    const hits = researchExport().filter(({ patientId }, at) => patientId === CLINIC[at]?.patientId).length;
    // Fixed points of a random order: Poisson about 1 whatever the length (de Montmort); more than 8 has a chance below 1.2e-6.
    expect(hits).toBeLessThanOrEqual(8);
  });

  it('by the ids of another research set finds none of them, nor the clinic’s own', () => {
    const [one, other] = [researchExport(), researchExport()];
    const ids = new Set(one.map(({ subjectId }) => subjectId));
    expect(ids.size).toBe(CLINIC.length);
    expect(other.filter(({ subjectId }) => ids.has(subjectId))).toEqual([]);
    expect(one.filter(({ subjectId, patientId }) => subjectId.includes(patientId))).toEqual([]);
  });

  it('by the place in two research sets hits no more patients than chance does', () => {
    const [one, other] = [researchExport(), researchExport()];
    expect(one.filter(({ patientId }, at) => patientId === other[at]?.patientId).length).toBeLessThanOrEqual(8);
  });
});

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { legOf } from '../lib/prompts/made-up-piece';
import { type ClinicOn, clinicOn, ENGINES } from './clinic-on';
import { details, visitOn } from './made-up-records';

const taped = (factor: number) => ({ ...legOf(factor), intervalText: null });

describe.each(ENGINES)('the scale of error of a clinic on %s', (engine) => {
  let at: ClinicOn;
  const ids: string[] = [];
  beforeAll(async () => {
    at = await clinicOn(engine);
    for (const [number, days] of [
      ['1', ['2026-01-05', '2026-03-05', '2026-05-05', '2026-07-05']],
      ['2', ['2026-01-06', '2026-03-06', '2026-05-06']],
      ['3', ['2026-01-07', '2026-03-07']],
    ] as const) {
      const added = await at.db.patients.addPatient(at.therapist, {
        submissionId: `p${number}`,
        details: details(`HL-${number}`, 'Somebody'),
      });
      if (added.kind !== 'saved') throw new Error(added.kind);
      ids.push(added.patientId);
      for (const day of days)
        await at.db.visits.saveVisit(at.therapist, {
          patientId: added.patientId,
          submissionId: day,
          visit: { ...visitOn(day), ladders: [taped(1 + 0.004 * Number(day.slice(5, 7)))] },
        });
    }
  });
  afterAll(async () => at?.close());

  it('is the one that the command line learns from the same records, of limbs measured three times or more', async () => {
    const { learnScale } = await import('@/db/clinic/learn-scale');
    const { recordErrorScale } = await import('@/lib/analysis/record-error-scale');
    const { recordsOf } = await import('@/db/patients/records');
    const { policyOf } = await import('@/db/clinic/policy');
    const learnt = await learnScale(at.therapist);
    const records = await recordsOf(at.therapist, ids);
    const limbs = new Set(
      records.slice(0, 2).flatMap(({ head, visits }) => visits.flatMap(({ ladders }) => ladders.map(({ side }) => head.patientId + side))),
    );
    expect(learnt.n).toBe(limbs.size);
    expect({ variance: learnt.variance, n: learnt.n }).toEqual(recordErrorScale(records, await policyOf(at.therapist)));
    expect(learnt.measurers).toEqual([]);
  });

  it('is learnt from nobody else’s record, and changes nothing by itself', async () => {
    const { learnScale } = await import('@/db/clinic/learn-scale');
    const { policyOf } = await import('@/db/clinic/policy');
    expect(await learnScale(at.stranger)).toEqual({ variance: 1, n: 0, range: null, measurers: [] });
    expect((await policyOf(at.therapist)).errorScale).toBe(DEFAULT_POLICY.errorScale);
  });
});

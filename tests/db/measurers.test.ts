import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { measurerDigest } from '@/lib/record/measurer';
import { type ClinicOn, clinicOn, ENGINES } from './clinic-on';
import { details, visitOn } from './made-up-records';

const form = () => crypto.randomUUID();

describe.each(ENGINES)('who measured, on %s', (engine) => {
  let at: ClinicOn;
  let patientId: string;
  let kitId: string;

  beforeAll(async () => {
    at = await clinicOn(engine);
    const added = await at.db.patients.addPatient(at.therapist, { submissionId: form(), details: details('HL-0800') });
    patientId = 'patientId' in added ? added.patientId : '';
    const { name, ...person } = { name: 'Kit Dunn', role: 'therapist', email: 'kit@harbour.example', passwordHash: 'no hash' } as const;
    const kit = await at.db.people.addPerson(at.therapist.clinicId, { name, ...person });
    kitId = 'id' in kit ? kit.id : '';
    for (const [day, measurer] of [
      ['2026-09-01', 'mum'],
      ['2026-10-01', 'Mum'],
      ['2026-10-14', 'Kit Dunn'],
    ] as const)
      await at.db.visits.saveVisit(at.therapist, { patientId, submissionId: form(), visit: { ...visitOn(day), measurer } });
  });
  afterAll(async () => at?.close());

  const ids = async () => (await at.db.records.recordOf(at.therapist, patientId))?.visits.map(({ measurerId }) => measurerId);

  it('a colleague is known by a name that no other bears; a text that a lead matched counts at once, and no visit is written anew', async () => {
    const { MEASURERS_KEY, measurerMatches, measurerTexts } = await import('@/db/patients/measurers');
    const { changeSetting } = await import('@/db/clinic/clinic');
    const { workAim } = await import('@/db/worklist/refresh-work');
    const today = '2026-11-25' as Parameters<typeof workAim>[1];
    const me = `person ${kitId}`;
    expect(await ids()).toEqual([undefined, undefined, me]);
    const before = await workAim(at.therapist, today);
    const value = [{ digest: measurerDigest('mum'), is: { kind: 'outsider', role: 'mother' } }];
    await changeSetting(at.therapist, { key: MEASURERS_KEY, value, reason: null });
    expect(await ids()).toEqual(['outsider mother', 'outsider mother', me]);
    expect((await workAim(at.therapist, today)).basis).not.toBe(before.basis);
    expect(await measurerMatches(at.stranger)).toEqual([]);
    expect(await measurerTexts(at.stranger)).toEqual([]);
    const record = await at.db.records.recordOf(at.therapist, patientId);
    expect(record?.visits.map(({ measurer, revision }) => [measurer, revision])).toEqual([
      ['mum', 1],
      ['Mum', 1],
      ['Kit Dunn', 1],
    ]);
    expect((await measurerTexts(at.therapist)).map(({ text }) => text).sort()).toEqual(['Kit Dunn', 'Mum', 'mum']);
    // Pages of the list are cut from it: a shorter answer is the beginning of the longer one.
    expect(await measurerTexts(at.therapist, 2)).toEqual((await measurerTexts(at.therapist)).slice(0, 2));
  });
});

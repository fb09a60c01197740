import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type ClinicOn, clinicOn, ENGINES } from './clinic-on';
import { details, visitOn } from './made-up-records';

const form = () => crypto.randomUUID();

describe.each(ENGINES)('the patients of a person on %s', (engine) => {
  let at: ClinicOn;
  beforeAll(async () => {
    at = await clinicOn(engine);
  });
  afterAll(async () => at?.close());

  it('are those whose newest visit they wrote as it stands, the last seen first, in the own clinic alone', async () => {
    const { ownPatients } = await import('@/db/worklist/own-patients');
    const { therapistWithId } = at.db.therapist;
    const added = await at.db.people.addPerson(at.therapist.clinicId, {
      name: 'K. Dunmore',
      role: 'therapist',
      email: 'k@harbour.example',
      passwordHash: 'none',
    });
    const other = await therapistWithId('id' in added ? added.id : '');
    if (!other) throw new Error(added.kind);
    const patient = async (reference: string, therapist = at.therapist) => {
      const saved = await at.db.patients.addPatient(therapist, { submissionId: form(), details: details(reference) });
      if (!('patientId' in saved)) throw new Error(saved.kind);
      return saved.patientId;
    };
    const seen = async (patientId: string, by: typeof at.therapist, day: string) => {
      const saved = await at.db.visits.saveVisit(by, { patientId, submissionId: form(), visit: visitOn(day) });
      if (!('visitId' in saved)) throw new Error(saved.kind);
      return saved.visitId;
    };
    const [first, second, third] = [await patient('HL-1'), await patient('HL-2'), await patient('HL-3')];
    await seen(first, at.therapist, '2026-09-01');
    await seen(first, other, '2026-10-01');
    await seen(second, other, '2026-09-01');
    const newest = await seen(second, at.therapist, '2026-10-14');
    await seen(third, at.therapist, '2026-11-02');
    const theirs = await patient('HS-1', at.stranger);
    await seen(theirs, at.stranger, '2026-11-02');
    expect(await ownPatients(at.therapist, 10)).toEqual([third, second]);
    expect(await ownPatients(at.therapist, 1)).toEqual([third]);
    expect(await ownPatients(other, 10)).toEqual([first]);
    await at.db.visits.reviseVisit(other, newest, 1, { submissionId: form(), visit: visitOn('2026-10-14', 'read again'), reason: 'slip' });
    expect(await ownPatients(other, 10)).toEqual([second, first]);
    expect(await ownPatients(at.stranger, 10)).toEqual([theirs]);
  });
});

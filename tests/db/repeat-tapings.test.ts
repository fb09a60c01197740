import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { TypedVisit } from '@/db/patients/visits';
import { type ClinicOn, clinicOn, ENGINES } from './clinic-on';
import { details, length, visitOn } from './made-up-records';

const NOW = new Date('2026-11-25T12:00:00Z');

/** A visit whose first ladder has so many rungs taped twice, the second so many mm larger (inches are not used here). */
function twice(day: string, count: number, apartMm: number): TypedVisit {
  const visit = visitOn(day);
  const [, left] = visit.ladders;
  if (!left) throw new Error('the made-up visit has two ladders');
  const rungs = Array.from({ length: count }, (_, index) => ({
    distance: length(String(4 * (index + 1)), 'cm', 40_000_000 * (index + 1)),
    girth: length('41', 'cm', 410_000_000),
    again: length(String(41 + apartMm / 10), 'cm', 410_000_000 + apartMm * 1_000_000),
  }));
  return { ...visit, ladders: [{ ...left, rungs }] };
}

describe.each(ENGINES)('the clinic’s own second tapings on %s', (engine) => {
  let at: ClinicOn;
  let patientId: string;
  const form = () => crypto.randomUUID();
  const save = async (visit: TypedVisit): Promise<string> => {
    const saved = await at.db.visits.saveVisit(at.therapist, { patientId, submissionId: form(), visit });
    if (saved.kind !== 'saved') throw new Error(saved.kind);
    return saved.visitId;
  };
  const inForce = async () => (await at.db.policy.policyInForce(at.therapist, NOW)).reading;

  beforeAll(async () => {
    at = await clinicOn(engine);
    const added = await at.db.patients.addPatient(at.therapist, { submissionId: form(), details: details('HL-0001') });
    patientId = added.kind === 'saved' ? added.patientId : '';
  });
  afterAll(async () => at?.close());

  it('count from ten pairs on, as the visits stand now, and give way to a lead', async () => {
    const { db, therapist, stranger } = at;
    expect(await inForce()).toEqual({ from: 'default', pairs: 0, newest: null, sdMm: undefined });
    await save(twice('2026-10-14', 9, 4));
    expect(await inForce()).toEqual({ from: 'default', pairs: 9, newest: '2026-10-14', sdMm: undefined });
    expect((await db.policy.policyOf(therapist, NOW)).readingSdMm).toBe(3);

    const tenth = await save(twice('2026-11-01', 1, 4));
    // Ten pairs 4 mm apart: √(160 / 20) = 2.83 mm (Dahlberg 1940, by hand).
    expect(await inForce()).toEqual({ from: 'tapings', pairs: 10, newest: '2026-11-01', sdMm: 2.8 });
    expect((await db.policy.policyOf(therapist, NOW)).readingSdMm).toBe(2.8);

    const corrected = { submissionId: form(), visit: twice('2026-11-01', 2, 10), reason: 'read anew' };
    await db.visits.reviseVisit(therapist, tenth, 1, corrected);
    // 9 × 16 + 2 × 100 = 344 mm² of 11 pairs: √(344 / 22) = 3.95 mm.
    expect(await inForce()).toMatchObject({ pairs: 11, sdMm: 4 });

    await save(twice('2024-11-24', 5, 20));
    expect(await inForce()).toMatchObject({ pairs: 11, newest: '2026-11-01' });
    expect((await db.policy.policyInForce(stranger, NOW)).reading.pairs).toBe(0);

    await db.clinic.changeSetting(therapist, { key: db.policy.POLICY_KEY, value: { readingSdMm: 2 }, reason: 'own study' });
    expect(await inForce()).toMatchObject({ from: 'lead', pairs: 11, sdMm: 4 });
    const { policy, unset } = await db.policy.policyInForce(therapist, NOW);
    expect([policy.readingSdMm, unset.readingSdMm]).toEqual([2, 4]);
  });

  it('a form sent twice counts its pairs once', async () => {
    const submissionId = form();
    const entry = { patientId, submissionId, visit: twice('2026-11-20', 3, 4) };
    await at.db.visits.saveVisit(at.therapist, entry);
    await at.db.visits.saveVisit(at.therapist, entry);
    expect(await inForce()).toMatchObject({ pairs: 14 });
  });
});

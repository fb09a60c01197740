import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { addDays, calendarDay } from '@/lib/units/calendar-day';
import { savePaths } from '@/tests/faults/save-paths';
import { type ClinicOn, clinicOn, ENGINES } from './clinic-on';
import { details, visitOn } from './made-up-records';

const TODAY = calendarDay('2026-10-20');

describe.each(ENGINES)('what is remembered of a patient on %s', (engine) => {
  let at: ClinicOn;
  beforeAll(async () => {
    at = await clinicOn(engine);
  });
  afterAll(async () => at?.close());

  /** What is in force, read anew as a page does. */
  async function inForce(today = TODAY) {
    const { policyOf } = await import('@/db/clinic/policy');
    const { diaryOf } = await import('@/db/clinic/diary');
    return { policy: await policyOf(at.therapist), diary: await diaryOf(at.therapist), today };
  }

  async function remembered(patientId: string, today = TODAY) {
    const { recordedWork } = await import('@/db/worklist/remembered-work');
    return recordedWork(at.therapist, patientId, await inForce(today));
  }

  /** The same read from the database whole, with nothing remembered. */
  async function anew(patientId: string) {
    const { recordOf } = await import('@/db/patients/records');
    const { answersOf, asKnown } = await import('@/db/worklist/prompt-answers');
    const { movesOf } = await import('@/db/worklist/moved-dates');
    const { patientWork } = await import('@/lib/schedule/patient-work');
    const { policy, diary } = await inForce();
    const record = await recordOf(at.therapist, patientId);
    const answers = (await answersOf(at.therapist, [patientId])).map(asKnown);
    const work = record && patientWork(record, { answers, moves: await movesOf(at.therapist, [patientId]), diary }, policy, TODAY);
    return { record, answers, dates: work?.dates, open: work?.open };
  }

  it('is never older than any way of writing left the record', async () => {
    const paths = savePaths(at, 'HL-0001', 'words');
    let changed = 0;
    let before = '';
    let analysis: unknown;
    let patientId = '';
    for (const path of paths) {
      await path.write();
      if (patientId === '') patientId = (await (await at.db.client.getDatabase()).select().from(at.db.schema.patient))[0]?.id ?? '';
      const known = await remembered(patientId);
      const fresh = await anew(patientId);
      expect({ record: known?.record, answers: known?.answers, dates: known?.work.dates, open: known?.work.open }, path.name).toEqual(
        fresh,
      );
      const now = JSON.stringify(fresh);
      if (now !== before) changed += 1;
      // What a page wrote of an analysis is kept by that very object (`once-per`): another state has another.
      if (now !== before) expect(known?.work.analysis, path.name).not.toBe(analysis);
      analysis = known?.work.analysis;
      before = now;
    }
    // Otherwise the paths would not have changed what is remembered, and nothing would have been tried.
    expect(changed).toBeGreaterThan(12);
  });

  it('is given again while nothing was written, and not for another day, other limits, other people or another clinic', async () => {
    const added = await at.db.patients.addPatient(at.therapist, { submissionId: crypto.randomUUID(), details: details('HL-0900') });
    const patientId = added.kind === 'saved' ? added.patientId : '';
    await at.db.visits.saveVisit(at.therapist, { patientId, submissionId: crypto.randomUUID(), visit: visitOn('2026-10-14') });
    const first = await remembered(patientId);
    expect(first?.record.visits).toHaveLength(1);
    expect(await remembered(patientId)).toBe(first);
    expect((await remembered(patientId, addDays(TODAY, 1)))?.work.analysis.today).toBe(addDays(TODAY, 1));
    const { recordedWork } = await import('@/db/worklist/remembered-work');
    const given = await inForce();
    const other = { ...given, policy: { ...given.policy, readingSdMm: given.policy.readingSdMm + 1 } };
    expect((await recordedWork(at.therapist, patientId, other))?.work.analysis.policy).toEqual(other.policy);
    expect(await recordedWork({ ...at.therapist, clinicId: 'another' }, patientId, given)).toBeUndefined();
    const database = await at.db.client.getDatabase();
    const second = await remembered(patientId);
    await database.update(at.db.schema.user).set({ name: 'R. Adeyemi the second' });
    const renamed = await remembered(patientId);
    expect(renamed).not.toBe(second);
    expect(renamed?.record.visits[0]?.authorName).toBe('R. Adeyemi the second');
  });
});

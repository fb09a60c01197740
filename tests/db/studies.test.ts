import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { isNoAnswer } from '@/lib/outcome';
import { studyOrder } from '@/lib/study/study-order';
import { type StudyPlan, turnName } from '@/lib/study/study-plan';
import { calendarDay } from '@/lib/units/calendar-day';
import { asNanometres } from '@/lib/units/length';
import { normalFrom } from '@/tests/lib/study/normal-from';
import { type ClinicOn, clinicOn, ENGINES } from './clinic-on';

const cm = (length: number) => ({ text: length.toFixed(2), unit: 'cm' as const, nm: asNanometres(Math.round(length * 100) * 100_000) });
const girthAt = (x: number) => 25 + 0.22 * x + 5.5 * Math.sin(x / 7.5);

describe.each(ENGINES)('a guided study on %s', (engine) => {
  let at: ClinicOn;
  let studies: typeof import('@/db/service/studies');
  let drafts: typeof import('@/db/service/study-drafts');
  let limits: typeof import('@/db/service/study-limits');
  let second: ClinicOn['therapist'];
  let third: ClinicOn['therapist'];
  let plan: StudyPlan;
  let studyId: string;
  const day = calendarDay('2026-11-18');

  beforeAll(async () => {
    at = await clinicOn(engine);
    studies = await import('@/db/service/studies');
    drafts = await import('@/db/service/study-drafts');
    limits = await import('@/db/service/study-limits');
    const person = async (name: string) => {
      const id = await at.db.people.addPerson(at.therapist.clinicId, {
        name,
        role: 'therapist',
        passwordHash: 'none',
        email: `${name}@harbour.example`,
      });
      const found = await at.db.therapist.therapistWithId(typeof id === 'string' ? id : 'id' in id ? id.id : '');
      if (!found) throw new Error('nobody');
      return found;
    };
    [second, third] = [await person('Bo'), await person('Cy')];
    plan = {
      limbs: ['P1', 'P2', 'P3', 'P4'].map((code) => ({ person: code, limb: 'leg', side: 'left' })),
      measurers: [at.therapist, second].map(({ id, name }) => ({ id, name })),
      repeats: 2,
      unit: 'cm',
      heights: Array.from({ length: 10 }, (_, rung) => cm(6 + 4 * rung)),
      seed: 11,
    };
    studyId = (await studies.beginStudy(at.therapist, 'begun', plan)).studyId;
  });
  afterAll(async () => at?.close());

  it('is begun once however often the form is sent, and seen by whom it concerns alone', async () => {
    expect((await studies.beginStudy(at.therapist, 'begun', plan)).studyId).toBe(studyId);
    expect(await studies.studiesOf(at.therapist)).toHaveLength(1);
    expect(await studies.studiesOf(second)).toHaveLength(1);
    for (const outside of [third, at.stranger, at.reader]) {
      expect(await studies.studyOf(outside, studyId)).toBeUndefined();
      expect(await studies.studyResultFor(outside, studyId)).toBeUndefined();
      expect((await studies.studyStatesFor(outside, studyId)).size).toBe(0);
    }
  });

  it('keeps a draft for its measurer alone, and lets it go with the saving', async () => {
    const [turn] = studyOrder(plan, 1);
    if (!turn) throw new Error('no turn');
    expect(await drafts.keepStudyDraft(at.therapist, studyId, turn, ['24'])).toBe(false);
    expect(await drafts.keepStudyDraft(second, studyId, turn, ['24'])).toBe(true);
    expect(await drafts.keepStudyDraft(second, studyId, turn, ['24', '25.5'])).toBe(true);
    expect(await drafts.studyDraftOf(second, studyId, turn)).toEqual(['24', '25.5']);
    expect(await drafts.studyDraftOf(at.therapist, studyId, turn)).toBeUndefined();
    await expect(drafts.keepStudyDraft(at.reader, studyId, turn, ['24'])).rejects.toThrow('read-only');
  });

  it('tells nothing until all is typed, then to each what is theirs; a correction keeps both states', async () => {
    const draw = normalFrom(5);
    const girths = () => plan.heights.map((_, rung) => cm(girthAt(6 + 4 * rung) + 0.2 * draw()));
    for (const [measurer, who] of [at.therapist, second].entries())
      for (const turn of studyOrder(plan, measurer)) {
        expect(await studies.studyResultFor(at.therapist, studyId)).toHaveProperty('noAnswer');
        const submissionId = `${studyId} ${turnName(turn)}`;
        const entry = { submissionId, turn, girths: girths(), expected: 0, reason: null };
        expect(await studies.saveStudyRun(measurer === 0 ? second : at.therapist, studyId, entry)).toEqual({ kind: 'not-found' });
        expect(await studies.saveStudyRun(who, studyId, entry)).toEqual({ kind: 'saved' });
        expect(await studies.saveStudyRun(who, studyId, entry)).toEqual({ kind: 'already-saved' });
        expect(await studies.saveStudyRun(who, studyId, { ...entry, submissionId: `${submissionId} again` })).toEqual({
          kind: 'typed-already',
        });
        const isLast = (await studies.studyOf(who, studyId))?.isWhole;
        if (!isLast)
          expect(
            await studies.saveStudyRun(who, studyId, { ...entry, submissionId: `${submissionId} early`, expected: 1, reason: 'slip' }),
          ).toEqual({ kind: 'early' });
      }
    const [turn] = studyOrder(plan, 1);
    if (!turn) throw new Error('no turn');
    expect(await drafts.studyDraftOf(second, studyId, turn)).toBeUndefined();
    const corrected = { submissionId: 'corrected', turn, girths: girths(), expected: 1, reason: 'misread' };
    expect(await studies.saveStudyRun(second, studyId, corrected)).toEqual({ kind: 'saved' });
    const own = await studies.studyStatesFor(second, studyId);
    expect([own.size, own.get(turnName(turn))?.map(({ number, reason }) => [number, reason])]).toEqual([
      8,
      [
        [1, null],
        [2, 'misread'],
      ],
    ]);
    expect((await studies.studyStatesFor(at.therapist, studyId)).size).toBe(16);
    const [ofLead, ofSecond] = [await studies.studyResultFor(at.therapist, studyId), await studies.studyResultFor(second, studyId)];
    if (!ofLead || !ofSecond || isNoAnswer(ofLead) || isNoAnswer(ofSecond)) throw new Error('no result');
    expect(ofLead.measurers.map(({ measurer }) => measurer)).toEqual([0, 1]);
    expect(ofSecond.measurers.map(({ measurer }) => measurer)).toEqual([1]);
    expect(ofLead.clinic.study.components.repeats).toBeGreaterThan(0);
  });

  it('is ended by a lead with a reason before it is whole: nobody tapes in it any more, and it says nothing', async () => {
    const { studyId: other } = await studies.beginStudy(at.therapist, 'begun too', plan);
    const [turn, next] = studyOrder(plan, 1);
    if (!turn || !next) throw new Error('no turn');
    const typed = (submissionId: string, of = turn) => ({ submissionId, turn: of, girths: plan.heights, expected: 0, reason: null });
    expect(await studies.saveStudyRun(second, other, typed('one'))).toEqual({ kind: 'saved' });
    expect(await studies.endStudy(second, other, { submissionId: 'end by another', reason: 'Bo left' })).toEqual({ kind: 'not-found' });
    expect(await studies.endStudy(at.stranger, other, { submissionId: 'end', reason: 'Bo left' })).toEqual({ kind: 'not-found' });
    await expect(studies.endStudy(at.reader, other, { submissionId: 'end', reason: 'Bo left' })).rejects.toThrow('read-only');
    expect(await studies.endStudy(at.therapist, other, { submissionId: 'end', reason: 'Bo left' })).toEqual({ kind: 'saved' });
    expect(await studies.endStudy(at.therapist, other, { submissionId: 'end again', reason: 'twice' })).toEqual({ kind: 'already-saved' });
    expect(await studies.endStudy(at.therapist, studyId, { submissionId: 'end whole', reason: 'x' })).toEqual({ kind: 'typed-already' });
    expect(await studies.saveStudyRun(second, other, typed('two', next))).toEqual({ kind: 'ended' });
    expect(await drafts.keepStudyDraft(second, other, next, ['24'])).toBe(false);
    const seen = await studies.studyOf(second, other);
    expect([seen?.ended?.reason, seen?.typed.size, seen?.isWhole]).toEqual(['Bo left', 1, false]);
    expect(await studies.studyResultFor(at.therapist, other)).toHaveProperty('noAnswer');
  });

  it('sets the limits of the engine when a lead keeps it, says where they are from, and gives them back', async () => {
    await at.db.clinic.changeSetting(at.therapist, { key: 'policy', value: { readingSdMm: 3.5, pieceLifeDays: 100 }, reason: 'own' });
    const before = await at.db.clinic.historyOfSetting(at.therapist, 'policy');
    expect(await limits.keepStudyLimits(at.therapist, studyId, day)).toBe(true);
    const { policyInForce } = await import('@/db/clinic/policy');
    const { own } = await policyInForce(at.therapist);
    // 2 mm were planted.
    expect(Math.abs((own.readingSdMm ?? 0) - 2)).toBeLessThan(0.5);
    const kept = await limits.studyLimitsKept(at.therapist, studyId, day);
    expect(kept?.reason).toMatch(/^measured in this clinic on 18 Nov 2026, n = 16 tapings of 4 limbs by 2 measurers/);
    expect(kept?.standing).toContain('readingSdMm');
    expect(await limits.takeBackStudyLimits(at.therapist, studyId, day)).toBe(true);
    expect((await policyInForce(at.therapist)).own).toMatchObject({ readingSdMm: 3.5 });
    expect(await limits.takeBackStudyLimits(at.therapist, studyId, day)).toBe(false);
    expect(await at.db.clinic.historyOfSetting(at.therapist, 'policy')).toHaveLength(before.length + 2);
    expect(await limits.keepStudyLimits(at.stranger, studyId, day)).toBe(false);
    const { checkAudit } = { checkAudit: await import('@/db/upkeep/check-audit') };
    expect(Object.keys(checkAudit).length).toBeGreaterThan(0);
  });
});

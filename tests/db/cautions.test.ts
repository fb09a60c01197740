import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { CardAnswered } from '@/lib/cautions/read-caution-form';
import { calendarDay } from '@/lib/units/calendar-day';
import { type ClinicOn, clinicOn, ENGINES } from './clinic-on';
import { details, visitOn } from './made-up-records';

const DAY = calendarDay('2026-11-25');

function answered(card: string, answer: CardAnswered['answer'], words: string | null = null): CardAnswered {
  return { card, cardVersion: '1', answer, wording: `Asked about ${card}.`, words, figures: { limits: { abpiLow: 0.8 } } };
}

describe.each(ENGINES)('answers to caution cards on %s', (engine) => {
  let at: ClinicOn;
  let patientId: string;
  let visitId: string;
  const form = () => crypto.randomUUID();
  const when = (minute: number) => new Date(Date.UTC(2026, 10, 25, 14, minute));

  beforeAll(async () => {
    at = await clinicOn(engine);
    const added = await at.db.patients.addPatient(at.therapist, { submissionId: form(), details: details('HL-0001') });
    patientId = added.kind === 'saved' ? added.patientId : '';
    const saved = await at.db.visits.saveVisit(at.therapist, { patientId, submissionId: form(), visit: visitOn('2026-11-24') });
    visitId = saved.kind === 'saved' ? saved.visitId : '';
  });
  afterAll(async () => at?.close());

  it('are kept with who, when, wording and limits; the latest of a card is in the record, all are in the history and the log', async () => {
    const { db, therapist } = at;
    const first = {
      submissionId: form(),
      visitId,
      day: DAY,
      answers: [answered('broken-skin', 'present', 'heel'), answered('hot-red-skin', 'absent')],
    };
    expect(await db.cautions.answerCautions(therapist, patientId, first, when(1))).toBe(true);
    const later = { submissionId: form(), visitId: null, day: DAY, answers: [answered('broken-skin', 'absent', 'closed')] };
    expect(await db.cautions.answerCautions(therapist, patientId, later, when(2))).toBe(true);

    const record = await db.records.recordOf(therapist, patientId);
    const latest = record?.cautions.map(({ card, answer, words, visitId: of }) => [card, answer, words, of]);
    expect(latest).toEqual([
      ['broken-skin', 'absent', 'closed', null],
      ['hot-red-skin', 'absent', null, visitId],
    ]);
    const history = await db.cautions.cautionHistory(therapist, patientId);
    expect(history.map(({ card, answer }) => `${card} ${answer}`)).toEqual(['broken-skin absent', expect.any(String), expect.any(String)]);
    expect(history.at(-1)).toMatchObject({
      byName: 'R. Adeyemi',
      at: when(1),
      day: DAY,
      cardVersion: '1',
      wording: expect.stringMatching(/^Asked about /),
      figures: { limits: { abpiLow: 0.8 } },
    });
    const [deed] = (await db.audit.auditEntries(therapist, 100, patientId)).filter(({ action }) => action === 'cautions answered');
    expect(deed).toMatchObject({ action: 'cautions answered', subjectId: patientId, detail: { answers: { 'broken-skin': 'absent' } } });
  });

  it('of one form sent again, one after the other or at once, are kept once with one deed; changed answers are kept beside them', async () => {
    const { db, therapist } = at;
    const sent = {
      submissionId: form(),
      visitId,
      day: DAY,
      answers: [answered('broken-skin', 'present', 'shin'), answered('hot-red-skin', 'absent')],
    };
    const count = async () => ({
      answers: (await db.cautions.cautionHistory(therapist, patientId)).length,
      deeds: (await db.audit.auditEntries(therapist, 100, patientId)).filter(({ action }) => action === 'cautions answered').length,
    });
    const before = await count();
    const again = (minute: number) => db.cautions.answerCautions(therapist, patientId, sent, when(minute));
    expect(await again(10)).toBe(true);
    expect(await again(11)).toBe(true);
    expect(await Promise.all([again(12), again(12), again(13)])).toEqual([true, true, true]);
    expect(await count()).toEqual({ answers: before.answers + 2, deeds: before.deeds + 1 });

    const changed = { ...sent, answers: [answered('broken-skin', 'absent', 'closed again')] };
    expect(await db.cautions.answerCautions(therapist, patientId, changed, when(14))).toBe(true);
    expect(await count()).toEqual({ answers: before.answers + 3, deeds: before.deeds + 2 });
    const other = { ...sent, submissionId: form() };
    expect(await db.cautions.answerCautions(therapist, patientId, other, when(15))).toBe(true);
    expect(await count()).toEqual({ answers: before.answers + 5, deeds: before.deeds + 3 });
  });

  it('are not taken for another clinic’s patient or visit, and not from a reader', async () => {
    const { db, stranger, reader, therapist } = at;
    const answers = [answered('broken-skin', 'present')];
    const before = await db.cautions.cautionHistory(therapist, patientId);
    expect(await db.cautions.answerCautions(stranger, patientId, { submissionId: form(), visitId: null, day: DAY, answers })).toBe(false);
    const own = await db.patients.addPatient(stranger, { submissionId: form(), details: details('HS-1') });
    if (own.kind !== 'saved') throw new Error(own.kind);
    expect(await db.cautions.answerCautions(stranger, own.patientId, { submissionId: form(), visitId, day: DAY, answers })).toBe(false);
    expect(await db.cautions.answerCautions(therapist, patientId, { submissionId: form(), visitId: null, day: DAY, answers: [] })).toBe(
      false,
    );
    await expect(db.cautions.answerCautions(reader, patientId, { submissionId: form(), visitId: null, day: DAY, answers })).rejects.toThrow(
      /read-only/,
    );
    expect(await db.cautions.cautionsOfPatients(stranger, [patientId])).toEqual([]);
    expect(await db.cautions.cautionHistory(stranger, patientId)).toEqual([]);
    expect(await db.cautions.cautionHistory(therapist, patientId)).toEqual(before);
    expect(await db.cautions.cautionsOfPatients(therapist, [])).toEqual([]);
  });
});

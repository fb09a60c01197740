import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type ClinicOn, clinicOn, ENGINES } from './clinic-on';
import { details, pieceFrom, visitOn } from './made-up-records';

describe.each(ENGINES)('a therapist of another clinic, on %s,', (engine) => {
  let at: ClinicOn;
  let patientId: string;
  let visitId: string;
  let pieceId: string;
  let eventId: string;
  const form = () => crypto.randomUUID();
  const shared = crypto.randomUUID();

  beforeAll(async () => {
    at = await clinicOn(engine);
    const added = await at.db.patients.addPatient(at.therapist, { submissionId: form(), details: details('HL-0001') });
    patientId = added.kind === 'saved' ? added.patientId : '';
    const saved = await at.db.visits.saveVisit(at.therapist, { patientId, submissionId: shared, visit: visitOn('2026-10-14') });
    visitId = saved.kind === 'saved' ? saved.visitId : '';
    const cut = await at.db.pieces.savePiece(at.therapist, { patientId, submissionId: form(), piece: pieceFrom(visitId, '2026-10-14') });
    pieceId = cut.kind === 'saved' ? cut.pieceId : '';
    const event = { day: visitOn('2026-10-20').day, kind: 'operation', words: 'skin graft' } as const;
    await at.db.events.addEvent(at.therapist, { patientId, submissionId: form(), event });
    eventId = (await at.db.events.eventsOfPatients(at.therapist, [patientId]))[0]?.eventId ?? '';
    await at.db.drafts.keepDraft(at.therapist, patientId, 'visit', { version: 0, content: {} });
    await at.db.clinic.changeSetting(at.therapist, { key: 'reference', value: 'cdc', reason: null });
  });
  afterAll(async () => at?.close());

  it('reads nothing', async () => {
    const { db, stranger } = at;
    expect(await db.patients.patientHead(stranger, patientId)).toBeUndefined();
    expect(await db.find.findPatients(stranger)).toMatchObject({ rows: [], total: 0 });
    expect((await db.find.lastVisitDays(stranger, [patientId])).size).toBe(0);
    expect(await db.reading.visitsOfPatients(stranger, [patientId])).toEqual([]);
    expect(await db.reading.keptVisit(stranger, visitId)).toBeUndefined();
    expect(await db.reading.visitWithHistory(stranger, visitId)).toBeUndefined();
    expect(await db.readingPieces.piecesOfPatients(stranger, [patientId])).toEqual([]);
    expect(await db.readingPieces.piecesByOrderDay(stranger, {})).toEqual([]);
    expect(await db.readingPieces.pieceWithHistory(stranger, pieceId)).toBeUndefined();
    expect(await db.events.eventsOfPatients(stranger, [patientId])).toEqual([]);
    expect(await db.records.recordOf(stranger, patientId)).toBeUndefined();
    expect(await db.answers.answersOf(stranger, [patientId])).toEqual([]);
    expect(await db.cautions.cautionsOfPatients(stranger, [patientId])).toEqual([]);
    expect(await db.cautions.cautionHistory(stranger, patientId)).toEqual([]);
    expect((await db.repeats.repeatTapingsOf(stranger)).pairs).toBe(0);
    expect(await db.drafts.draftOf(stranger, patientId, 'visit')).toBeUndefined();
    expect((await db.clinic.settingsOf(stranger)).size).toBe(0);
    expect((await db.audit.auditEntries(stranger)).map((deed) => deed.action)).toEqual(['person added']);
    expect((await db.people.peopleOf(stranger)).map((person) => person.email)).toEqual(['lead@hill.example']);
  });

  it('writes nothing', async () => {
    const { db, stranger, therapist } = at;
    const before = await db.records.recordOf(therapist, patientId);
    const entry = { submissionId: form(), details: details('HL-0666', 'Changed'), reason: 'not theirs' };
    const visit = visitOn('2026-12-24', 'not theirs');
    const piece = pieceFrom(null, '2026-12-24');
    expect(await db.patients.revisePatient(stranger, patientId, 1, entry)).toEqual({ kind: 'not-found' });
    expect(await db.visits.saveVisit(stranger, { patientId, submissionId: form(), visit })).toEqual({ kind: 'not-found' });
    expect(await db.visits.reviseVisit(stranger, visitId, 1, { submissionId: form(), visit, reason: 'r' })).toEqual({ kind: 'not-found' });
    expect(await db.pieces.savePiece(stranger, { patientId, submissionId: form(), piece })).toEqual({ kind: 'not-found' });
    expect(await db.pieces.revisePiece(stranger, pieceId, 1, { submissionId: form(), piece, reason: 'r' })).toEqual({ kind: 'not-found' });
    const event = { day: visit.day, kind: 'other', words: 'not theirs' } as const;
    expect(await db.events.addEvent(stranger, { patientId, submissionId: form(), event })).toEqual({ kind: 'not-found' });
    expect(await db.events.withdrawEvent(stranger, eventId, { submissionId: form(), reason: 'r' })).toEqual({ kind: 'not-found' });
    const answer = {
      promptKey: 'k',
      rule: 'r',
      ruleVersion: '1',
      inputsHash: 'h',
      inputs: {},
      answer: 'act',
      until: null,
      reason: null,
    } as const;
    expect(await db.answers.answerPrompt(stranger, patientId, answer)).toBe(false);
    expect((await db.drafts.keepDraft(stranger, patientId, 'visit', { version: 0, content: 'theirs' })).kind).toBe('newer');
    expect(await db.records.recordOf(therapist, patientId)).toEqual(before);
  });

  it('does not meet a submission of this clinic that has the same number', async () => {
    const { db, stranger } = at;
    const own = await db.patients.addPatient(stranger, { submissionId: shared, details: details('HS-1') });
    if (own.kind !== 'saved') throw new Error(own.kind);
    const saved = await db.visits.saveVisit(stranger, { patientId: own.patientId, submissionId: shared, visit: visitOn('2026-10-14') });
    expect(saved.kind).toBe('saved');
  });

  it('and a read-only person of the same clinic reads but writes nothing', async () => {
    const { db, reader } = at;
    expect((await db.patients.patientHead(reader, patientId))?.reference).toBe('HL-0001');
    const refused = /read-only/;
    const entry = { submissionId: form(), details: details('HL-0777'), reason: null };
    const visit = visitOn('2026-12-24');
    const piece = pieceFrom(null, '2026-12-24');
    await expect(db.patients.addPatient(reader, entry)).rejects.toThrow(refused);
    await expect(db.patients.revisePatient(reader, patientId, 1, entry)).rejects.toThrow(refused);
    await expect(db.visits.saveVisit(reader, { patientId, submissionId: form(), visit })).rejects.toThrow(refused);
    await expect(db.visits.reviseVisit(reader, visitId, 1, { submissionId: form(), visit, reason: 'r' })).rejects.toThrow(refused);
    await expect(db.pieces.savePiece(reader, { patientId, submissionId: form(), piece })).rejects.toThrow(refused);
    await expect(db.pieces.revisePiece(reader, pieceId, 1, { submissionId: form(), piece, reason: 'r' })).rejects.toThrow(refused);
    await expect(db.clinic.changeSetting(reader, { key: 'k', value: 1, reason: null })).rejects.toThrow(refused);
    await expect(db.drafts.keepDraft(reader, patientId, 'visit', { version: 0, content: {} })).rejects.toThrow(refused);
  });
});

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type ClinicOn, clinicOn, ENGINES } from './clinic-on';
import { details, pieceFrom, visitOn } from './made-up-records';

describe.each(ENGINES)('records on %s', (engine) => {
  let at: ClinicOn;
  let patientId: string;
  const form = () => crypto.randomUUID();

  beforeAll(async () => {
    at = await clinicOn(engine);
    const added = await at.db.patients.addPatient(at.therapist, { submissionId: form(), details: details('HL-0147') });
    if (added.kind !== 'saved') throw new Error(added.kind);
    patientId = added.patientId;
  });
  afterAll(async () => at?.close());

  it('gives back a patient as typed', async () => {
    expect(await at.db.patients.patientHead(at.therapist, patientId)).toEqual({ ...details('HL-0147'), patientId, revision: 1 });
  });

  it('tells when a reference is already used, whatever its capitals', async () => {
    const again = await at.db.patients.addPatient(at.therapist, { submissionId: form(), details: details('hl-0147') });
    expect(again).toEqual({ kind: 'reference-taken', patientId });
  });

  it('lets another clinic use the same reference', async () => {
    const theirs = await at.db.patients.addPatient(at.stranger, { submissionId: form(), details: details('HL-0147') });
    expect(theirs.kind).toBe('saved');
  });

  it('finds patients by part of a reference or a name in any capitals, and by both', async () => {
    await at.db.patients.addPatient(at.therapist, { submissionId: form(), details: details('HL-0098', 'Joss Tamblyn') });
    await at.db.patients.addPatient(at.therapist, { submissionId: form(), details: details('HL-0099', null) });
    const found = async (words: string) => (await at.db.find.findPatients(at.therapist, words)).rows.map((row) => row.reference);
    expect(await found('TAMB')).toEqual(['HL-0098']);
    expect(await found('0147 mira')).toEqual(['HL-0147']);
    expect(await found('009')).toEqual(['HL-0098', 'HL-0099']);
    expect(await found('nobody')).toEqual([]);
    const page = await at.db.find.findPatients(at.therapist, 'hl', 2, 2);
    expect(page).toMatchObject({ total: 3, page: 2, pages: 2 });
    expect(page.rows.map((row) => row.reference)).toEqual(['HL-0147']);
  });

  it('gives back a visit exactly as typed: texts, exact lengths, gaps, kept doubts, odd last rung', async () => {
    const saved = await at.db.visits.saveVisit(at.therapist, { patientId, submissionId: form(), visit: visitOn('2026-10-14') });
    if (saved.kind !== 'saved') throw new Error(saved.kind);
    const [kept] = await at.db.reading.visitsOfPatients(at.therapist, [patientId]);
    const typed = visitOn('2026-10-14');
    const ladders = typed.ladders.map((ladder) => ({ ...ladder, intervalText: ladder.intervalText ?? null }));
    expect(kept).toMatchObject({
      ...typed,
      ladders,
      visitId: saved.visitId,
      patientId,
      revision: 1,
      author: at.therapist.id,
      reason: null,
    });
    expect(kept?.at).toBeInstanceOf(Date);
  });

  it('refuses a submission that made a visit of somebody else before, and says so', async () => {
    const submissionId = form();
    const other = await at.db.patients.addPatient(at.therapist, { submissionId: form(), details: details('HL-0777') });
    const otherId = 'patientId' in other ? other.patientId : '';
    await at.db.visits.saveVisit(at.therapist, { patientId, submissionId, visit: visitOn('2026-10-19') });
    const again = await at.db.visits.saveVisit(at.therapist, { patientId: otherId, submissionId, visit: visitOn('2026-10-19') });
    expect(again).toEqual({ kind: 'another-patient' });
    expect(await at.db.reading.visitsOfPatients(at.therapist, [otherId])).toEqual([]);
  });

  it('makes one visit of one submission, however often it is sent, also at the same moment', async () => {
    const entry = { patientId, submissionId: form(), visit: visitOn('2026-10-20') };
    const first = await at.db.visits.saveVisit(at.therapist, entry);
    const others = await Promise.all(Array.from({ length: 20 }, () => at.db.visits.saveVisit(at.therapist, entry)));
    if (!('visitId' in first)) throw new Error('not saved');
    expect(others).toEqual(others.map(() => ({ kind: 'already-saved', visitId: first.visitId })));
    const days = (await at.db.reading.visitsOfPatients(at.therapist, [patientId])).map((visit) => visit.day);
    expect(days.filter((day) => day === '2026-10-20')).toHaveLength(1);
  });

  it('makes one visit of a submission whose first sending has not been answered yet', async () => {
    const entry = { patientId, submissionId: form(), visit: visitOn('2026-10-21') };
    const all = await Promise.all(Array.from({ length: 10 }, () => at.db.visits.saveVisit(at.therapist, entry)));
    expect(all.filter((one) => one.kind === 'saved')).toHaveLength(1);
    expect(new Set(all.map((one) => ('visitId' in one ? one.visitId : ''))).size).toBe(1);
  });

  it('makes one patient of one submission sent twice', async () => {
    const entry = { submissionId: form(), details: details('HL-0200') };
    const first = await at.db.patients.addPatient(at.therapist, entry);
    const second = await at.db.patients.addPatient(at.therapist, entry);
    expect(first.kind).toBe('saved');
    expect(second).toEqual({ ...first, kind: 'already-saved' });
  });

  it('keeps every revision of a visit with its reason', async () => {
    const saved = await at.db.visits.saveVisit(at.therapist, { patientId, submissionId: form(), visit: visitOn('2026-11-01') });
    if (saved.kind !== 'saved') throw new Error(saved.kind);
    const entry = { submissionId: form(), visit: visitOn('2026-11-02', 'wrong day at first'), reason: 'day mistyped' };
    expect(await at.db.visits.reviseVisit(at.therapist, saved.visitId, 1, entry)).toEqual({ kind: 'saved', visitId: saved.visitId });
    const history = await at.db.reading.visitWithHistory(at.therapist, saved.visitId);
    expect(history?.revisions.map((one) => [one.revision, one.day, one.reason, one.ladders.length])).toEqual([
      [1, '2026-11-01', null, 2],
      [2, '2026-11-02', 'day mistyped', 2],
    ]);
    expect(history?.current.day).toBe('2026-11-02');
    const again = await at.db.visits.reviseVisit(at.therapist, saved.visitId, 1, entry);
    expect(again).toEqual({ kind: 'already-saved', visitId: saved.visitId });
  });

  it('shows both versions when two people correct the same visit, and loses neither', async () => {
    const saved = await at.db.visits.saveVisit(at.therapist, { patientId, submissionId: form(), visit: visitOn('2026-11-05') });
    if (saved.kind !== 'saved') throw new Error(saved.kind);
    const correct = (note: string) =>
      at.db.visits.reviseVisit(at.therapist, saved.visitId, 1, {
        submissionId: form(),
        visit: visitOn('2026-11-05', note),
        reason: 'note',
      });
    const ends = await Promise.all([correct('hers'), correct('his')]);
    const lost = ends.find((end) => end.kind === 'conflict');
    expect(ends.map((end) => end.kind).sort()).toEqual(['conflict', 'saved']);
    expect(lost?.kind === 'conflict' && [lost.theirs.note, lost.yours.note].sort()).toEqual(['hers', 'his']);
    expect((await at.db.reading.visitWithHistory(at.therapist, saved.visitId))?.revisions).toHaveLength(2);
  });

  it('shows both versions when two people correct the same patient', async () => {
    const added = await at.db.patients.addPatient(at.therapist, { submissionId: form(), details: details('HL-0300', 'First') });
    if (added.kind !== 'saved') throw new Error(added.kind);
    const revise = (name: string) =>
      at.db.patients.revisePatient(at.therapist, added.patientId, 1, {
        submissionId: form(),
        details: details('HL-0300', name),
        reason: null,
      });
    expect((await revise('Second')).kind).toBe('saved');
    expect(await revise('Third')).toMatchObject({ kind: 'conflict', theirs: { name: 'Second', revision: 2 }, yours: { name: 'Third' } });
    expect((await at.db.find.findPatients(at.therapist, 'second')).total).toBe(1);
    expect((await at.db.find.findPatients(at.therapist, 'first')).total).toBe(0);
  });

  it('refuses to give a patient the reference of another', async () => {
    const added = await at.db.patients.addPatient(at.therapist, { submissionId: form(), details: details('HL-0400') });
    if (added.kind !== 'saved') throw new Error(added.kind);
    const entry = { submissionId: form(), details: details('HL-0147'), reason: null };
    expect(await at.db.patients.revisePatient(at.therapist, added.patientId, 1, entry)).toEqual({ kind: 'reference-taken', patientId });
    expect((await at.db.patients.patientHead(at.therapist, added.patientId))?.reference).toBe('HL-0400');
  });

  it('keeps a piece through first wear to retirement, and gives a whole record to the rules', async () => {
    const added = await at.db.patients.addPatient(at.therapist, { submissionId: form(), details: details('HL-0500') });
    if (added.kind !== 'saved') throw new Error(added.kind);
    const owner = added.patientId;
    const later = await at.db.visits.saveVisit(at.therapist, { patientId: owner, submissionId: form(), visit: visitOn('2026-11-10') });
    const earlier = await at.db.visits.saveVisit(at.therapist, { patientId: owner, submissionId: form(), visit: visitOn('2026-09-10') });
    if (later.kind !== 'saved' || earlier.kind !== 'saved') throw new Error('not saved');
    const piece = pieceFrom(earlier.visitId, '2026-09-10');
    const saved = await at.db.pieces.savePiece(at.therapist, { patientId: owner, submissionId: form(), piece });
    if (saved.kind !== 'saved') throw new Error(saved.kind);
    const worn = { ...piece, firstWorn: visitOn('2026-09-24').day };
    const entry = { submissionId: form(), piece: worn, reason: 'first fit' };
    expect((await at.db.pieces.revisePiece(at.therapist, saved.pieceId, 1, entry)).kind).toBe('saved');
    expect((await at.db.pieces.revisePiece(at.therapist, saved.pieceId, 1, { ...entry, submissionId: form() })).kind).toBe('conflict');
    const record = await at.db.records.recordOf(at.therapist, owner);
    expect(record).toMatchObject({ reference: 'HL-0500', born: '2016-02-29', sex: 'F', affected: [{ limb: 'leg', side: 'right' }] });
    expect(record?.visits.map((visit) => visit.day)).toEqual(['2026-09-10', '2026-11-10']);
    expect(record?.pieces).toMatchObject([{ ...worn, pieceId: saved.pieceId, revision: 2 }]);
    const both = await at.db.records.recordsOf(at.therapist, [owner, 'no such id', patientId]);
    expect(both.map((one) => one.reference)).toEqual(['HL-0500', 'HL-0147']);
  });

  it('keeps an event once, and withdraws a mistaken one without losing it', async () => {
    const event = { day: visitOn('2026-10-20').day, kind: 'operation', words: 'skin graft' } as const;
    const entry = { patientId, submissionId: form(), event };
    expect(await at.db.events.addEvent(at.therapist, entry)).toEqual({ kind: 'saved' });
    expect(await at.db.events.addEvent(at.therapist, entry)).toEqual({ kind: 'already-saved' });
    const record = await at.db.records.recordOf(at.therapist, patientId);
    expect(record?.events).toMatchObject([event]);
    const eventId = record?.events[0]?.eventId ?? '';
    const withdrawal = { submissionId: form(), reason: 'other patient' };
    expect(await at.db.events.withdrawEvent(at.therapist, eventId, withdrawal)).toEqual({ kind: 'saved' });
    expect(await at.db.events.withdrawEvent(at.therapist, eventId, { ...withdrawal, submissionId: form() })).toEqual({
      kind: 'already-saved',
    });
    expect((await at.db.records.recordOf(at.therapist, patientId))?.events).toEqual([]);
    const database = await at.db.client.getDatabase();
    expect(await database.$count(at.db.schema.patientEvent)).toBe(2);
  });

  it('refuses a piece cut from the visit of someone else', async () => {
    const other = await at.db.patients.addPatient(at.therapist, { submissionId: form(), details: details('HL-0600') });
    if (other.kind !== 'saved') throw new Error(other.kind);
    const [visit] = await at.db.reading.visitsOfPatients(at.therapist, [patientId]);
    const piece = pieceFrom(visit?.visitId ?? '', '2026-10-14');
    expect(await at.db.pieces.savePiece(at.therapist, { patientId: other.patientId, submissionId: form(), piece })).toEqual({
      kind: 'not-found',
    });
  });

  it('lets the latest answer to a prompt and the latest value of a setting count, and keeps the earlier ones', async () => {
    const base = { promptKey: 'order right leg', rule: 'outgrow', ruleVersion: '1', inputsHash: 'a', inputs: { days: 12 }, reason: null };
    const until = visitOn('2026-12-01').day;
    await at.db.answers.answerPrompt(at.therapist, patientId, { ...base, answer: 'not-now', until }, new Date('2026-11-20T10:00:00Z'));
    await at.db.answers.answerPrompt(at.therapist, patientId, { ...base, answer: 'act', until: null }, new Date('2026-11-21T10:00:00Z'));
    expect(await at.db.answers.answersOf(at.therapist, [patientId])).toMatchObject([
      { answer: 'not-now', until, byName: 'R. Adeyemi' },
      { answer: 'act', inputs: { days: 12 }, patientId },
    ]);
    const set = (value: unknown, at_: string) =>
      at.db.clinic.changeSetting(at.therapist, { key: 'visit-every-days', value, reason: null }, new Date(at_));
    await set({ days: 42 }, '2026-11-20T10:00:00Z');
    await set({ days: 56 }, '2026-11-21T10:00:00Z');
    expect((await at.db.clinic.settingsOf(at.therapist)).get('visit-every-days')?.value).toEqual({ days: 56 });
    expect(await at.db.clinic.historyOfSetting(at.therapist, 'visit-every-days')).toHaveLength(2);
  });

  it('an act that was begun counts as done only when its deed was written, and only for the limb it was begun for', async () => {
    const left = { limb: { limb: 'leg', side: 'left' } };
    const asked = {
      rule: 'outgrow',
      ruleVersion: '1',
      inputsHash: 'b',
      inputs: { action: 'order', about: left },
      until: null,
      reason: null,
    };
    const last = async (key: string) =>
      (await at.db.answers.answersOf(at.therapist, [patientId])).filter(({ promptKey }) => promptKey === key).at(-1)?.answer;
    await at.db.answers.answerPrompt(at.therapist, patientId, { ...asked, promptKey: 'left', answer: 'begun' });
    await at.db.answers.completeBegun(at.therapist, patientId, ['remeasure']);
    await at.db.answers.completeBegun(at.therapist, patientId, ['order'], ({ limb }) => limb?.side === 'right');
    expect(await last('left')).toBe('begun');
    await at.db.answers.completeBegun(at.therapist, patientId, ['order'], ({ limb }) => limb?.side === 'left');
    expect(await last('left')).toBe('act');
  });

  it('keeps a draft, and shows the newer one to a window that lags behind', async () => {
    expect(await at.db.drafts.keepDraft(at.therapist, patientId, 'visit', { version: 0, content: { girths: ['7'] } })).toEqual({
      kind: 'kept',
      version: 1,
    });
    await at.db.drafts.keepDraft(at.therapist, patientId, 'visit', { version: 1, content: { girths: ['7', '8'] } });
    expect(await at.db.drafts.keepDraft(at.therapist, patientId, 'visit', { version: 1, content: { girths: [] } })).toMatchObject({
      kind: 'newer',
      draft: { content: { girths: ['7', '8'] }, version: 2 },
    });
    await at.db.drafts.discardDraft(at.therapist, patientId, 'visit');
    expect(await at.db.drafts.draftOf(at.therapist, patientId, 'visit')).toBeUndefined();
  });

  it('writes one audit row for each write, with who did it', async () => {
    const before = (await at.db.audit.auditEntries(at.therapist, 10_000)).length;
    const saved = await at.db.visits.saveVisit(at.therapist, { patientId, submissionId: form(), visit: visitOn('2026-11-12') });
    if (saved.kind !== 'saved') throw new Error(saved.kind);
    const deeds = await at.db.audit.auditEntries(at.therapist, 10_000);
    expect(deeds).toHaveLength(before + 1);
    expect(deeds.find((deed) => deed.subjectId === saved.visitId)).toMatchObject({
      action: 'visit saved',
      whoName: 'R. Adeyemi',
      detail: { patientId },
    });
  });
});

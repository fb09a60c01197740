import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type ClinicOn, clinicOn, ENGINES } from './clinic-on';
import { details, orderFrom, pieceFrom, tapedTwice, visitOn } from './made-up-records';

describe.each(ENGINES)('the record on %s refuses to be rewritten', (engine) => {
  let at: ClinicOn;

  beforeAll(async () => {
    at = await clinicOn(engine);
    const { db, therapist } = at;
    const form = () => crypto.randomUUID();
    const added = await db.patients.addPatient(therapist, { submissionId: form(), details: details('HL-0001') });
    if (added.kind !== 'saved') throw new Error(added.kind);
    const { patientId } = added;
    await db.visits.saveVisit(therapist, { patientId, submissionId: form(), visit: tapedTwice('2026-10-14') });
    await db.pieces.savePiece(therapist, { patientId, submissionId: form(), piece: pieceFrom(null, '2026-10-14') });
    const [visit] = await db.reading.visitsOf(therapist, patientId);
    await db.orders.proposeOrder(therapist, { patientId, submissionId: form(), order: orderFrom(visit?.visitId ?? '', '2026-10-14') });
    const event = { day: visitOn('2026-10-20').day, kind: 'infection', words: 'cellulitis, right leg' } as const;
    await db.events.addEvent(therapist, { patientId, submissionId: form(), event });
    const card = { card: 'c', cardVersion: '1', answer: 'absent', wording: 'w', words: null, figures: {} } as const;
    await db.cautions.answerCautions(therapist, patientId, { visitId: null, day: visitOn('2026-10-14').day, answers: [card] });
    await db.clinic.changeSetting(therapist, { key: 'reference', value: 'cdc', reason: null });
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
    await db.answers.answerPrompt(therapist, patientId, answer);
  });
  afterAll(async () => at?.close());

  const tables = [
    'patientRevision',
    'visitRevision',
    'ladder',
    'repeatTaping',
    'cautionAnswer',
    'pieceRevision',
    'orderRevision',
    'patientEvent',
    'promptAnswer',
    'clinicSetting',
    'audit',
  ] as const;

  it.each(tables)('%s: no row can be changed', async (name) => {
    const database = await at.db.client.getDatabase();
    const table = at.db.schema[name];
    const before = await database.select().from(table);
    expect(before.length).toBeGreaterThan(0);
    await expect(refusal(database.update(table).set({ id: 'another' }))).resolves.toMatch(/is append-only/);
    expect(await database.select().from(table)).toEqual(before);
  });

  it.each(tables)('%s: no row can be removed', async (name) => {
    const database = await at.db.client.getDatabase();
    const table = at.db.schema[name];
    const before = await database.select().from(table);
    await expect(refusal(database.delete(table))).resolves.toMatch(/is append-only/);
    expect(await database.select().from(table)).toEqual(before);
  });
});

/** The words of the innermost error of a query that fails; empty when it does not. */
async function refusal(query: PromiseLike<unknown>): Promise<string> {
  try {
    await query;
    return '';
  } catch (error) {
    const words = [];
    for (let one: unknown = error; one instanceof Error; one = one.cause) words.push(one.message);
    return words.join(' ');
  }
}

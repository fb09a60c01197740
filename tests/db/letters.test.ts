import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { LETTER_HEADS, LETTER_VERSION } from '@/lib/summary/letter/letter-words';
import type { ReplacementLetter } from '@/lib/summary/letter/replacement-letter';
import { type ClinicOn, clinicOn, ENGINES } from './clinic-on';
import { details, visitOn } from './made-up-records';

const form = () => crypto.randomUUID();

const LETTER: ReplacementLetter = {
  version: LETTER_VERSION,
  language: 'en',
  clinic: 'Harbour Lane',
  title: 'Request',
  reference: 'HL-0001',
  piece: '1',
  reason: 'lost',
  sections: [{ key: 'effect', head: LETTER_HEADS.effect, paragraphs: ['The limb would swell again – “soon”.'], tables: [] }],
  signature: { name: 'R. Adeyemi', credentials: 'Occupational therapist', day: '14 Oct 2026' },
  protocol: 'Local protocol is followed.',
};

describe.each(ENGINES)('signed letters on %s', (engine) => {
  let at: ClinicOn;
  let patientId: string;
  let visitId: string;
  let letterId: string;
  const submissionId = form();

  beforeAll(async () => {
    at = await clinicOn(engine);
    const added = await at.db.patients.addPatient(at.therapist, { submissionId: form(), details: details('HL-0001') });
    patientId = added.kind === 'saved' ? added.patientId : '';
    const saved = await at.db.visits.saveVisit(at.therapist, { patientId, submissionId: form(), visit: visitOn('2026-10-14') });
    visitId = saved.kind === 'saved' ? saved.visitId : '';
    letterId = (await at.db.letters.signLetter(at.therapist, { patientId, visitId, submissionId, letter: LETTER })) ?? '';
  });
  afterAll(async () => at?.close());

  it('come back as they were signed, with who and which visit', async () => {
    const kept = await at.db.letters.letterOf(at.therapist, letterId);
    expect(kept).toMatchObject({ letterId, patientId, visitId, letter: LETTER, byName: 'R. Adeyemi' });
    expect(await at.db.letters.lettersOf(at.therapist, patientId)).toHaveLength(1);
  });

  it('one submission makes one letter, and one note in the audit', async () => {
    expect(await at.db.letters.signLetter(at.therapist, { patientId, visitId, submissionId, letter: LETTER })).toBe(letterId);
    expect(await at.db.letters.lettersOf(at.therapist, patientId)).toHaveLength(1);
    const database = await at.db.client.getDatabase();
    const notes = (await database.select().from(at.db.schema.audit)).filter((one) => one.subjectId === letterId);
    expect(notes.map((one) => one.action)).toEqual(['replacement letter signed']);
  });

  it('are the clinic’s own: a stranger neither reads nor writes them', async () => {
    expect(await at.db.letters.letterOf(at.stranger, letterId)).toBeUndefined();
    expect(await at.db.letters.lettersOf(at.stranger, patientId)).toEqual([]);
    const entry = { patientId, visitId: null, submissionId: form(), letter: LETTER };
    expect(await at.db.letters.signLetter(at.stranger, entry)).toBeUndefined();
    expect(await at.db.letters.lettersOf(at.therapist, patientId)).toHaveLength(1);
  });

  it('name no visit of another patient', async () => {
    const other = await at.db.patients.addPatient(at.therapist, { submissionId: form(), details: details('HL-0002') });
    const otherId = other.kind === 'saved' ? other.patientId : '';
    const entry = { patientId: otherId, visitId, submissionId: form(), letter: LETTER };
    expect(await at.db.letters.signLetter(at.therapist, entry)).toBeUndefined();
  });

  it('a read-only person reads but does not sign', async () => {
    expect(await at.db.letters.letterOf(at.reader, letterId)).toBeDefined();
    const entry = { patientId, visitId: null, submissionId: form(), letter: LETTER };
    await expect(at.db.letters.signLetter(at.reader, entry)).rejects.toThrow();
  });

  it('are not family pages, and no row can be changed or removed', async () => {
    expect(await at.db.familyPages.familyPageOf(at.therapist, letterId)).toBeUndefined();
    const database = await at.db.client.getDatabase();
    const { issuedDocument } = at.db.schema;
    await expect(async () => database.update(issuedDocument).set({ language: 'es' })).rejects.toThrow();
    await expect(async () => database.delete(issuedDocument)).rejects.toThrow();
    expect((await at.db.letters.letterOf(at.therapist, letterId))?.letter).toEqual(LETTER);
  });
});

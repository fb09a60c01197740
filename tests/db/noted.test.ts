import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { NotedEntry } from '@/db/patients/noted';
import { NO_FACTS } from '@/lib/record/work-facts';
import { BOOKINGS, FACTS, OBSERVATIONS } from '@/tests/lib/made-up-noted';
import { type ClinicOn, clinicOn, ENGINES } from './clinic-on';
import { details } from './made-up-records';

const form = () => crypto.randomUUID();

describe.each(ENGINES)('what is noted beside the measures on %s', (engine) => {
  let at: ClinicOn;
  let patientId: string;

  beforeAll(async () => {
    at = await clinicOn(engine);
    const added = await at.db.patients.addPatient(at.therapist, { submissionId: form(), details: details('HL-0700') });
    patientId = 'patientId' in added ? added.patientId : '';
  });
  afterAll(async () => at?.close());

  const facts = (expected: number, more: Partial<NotedEntry> = {}): NotedEntry => ({
    ...{ submissionId: form(), kind: 'facts', thing: patientId, expected, day: null, content: FACTS },
    ...{ deed: 'facts for the work written', reason: null },
    ...more,
  });
  const save = (entry: NotedEntry, who = at.therapist) => at.db.noted.saveNoted(who, patientId, entry);
  const recordNow = async () => at.db.records.recordOf(at.therapist, patientId);

  it('is written, and written again; each state stays, with who and why', async () => {
    const submissionId = form();
    expect((await recordNow())?.facts).toBeNull();
    expect(await save(facts(0, { submissionId }))).toEqual({ kind: 'saved' });
    expect(await save(facts(0, { submissionId }))).toEqual({ kind: 'already-saved' });
    expect(await save(facts(0))).toEqual({ kind: 'conflict' });
    expect((await recordNow())?.facts).toEqual(FACTS);
    expect(await save(facts(1, { content: { ...NO_FACTS, prescriber: 'Dr. Orm' }, reason: 'another prescriber' }))).toEqual({
      kind: 'saved',
    });
    expect(await recordNow()).toMatchObject({ facts: { prescriber: 'Dr. Orm', contacts: [] }, factsNumber: 2 });
    const history = await at.db.noted.notedHistory(at.therapist, patientId, 'facts');
    expect(history.map(({ number, reason }) => [number, reason])).toEqual([
      [2, 'another prescriber'],
      [1, null],
    ]);
    expect(history[1]?.content).toEqual(FACTS);
  });

  it('is closed to a stranger and to who only reads; a thing of one patient is not written under another', async () => {
    expect(await save(facts(2), at.stranger)).toEqual({ kind: 'not-found' });
    await expect(save(facts(2), at.reader)).rejects.toThrow();
    const other = await at.db.patients.addPatient(at.therapist, { submissionId: form(), details: details('HL-0701') });
    const otherId = 'patientId' in other ? other.patientId : '';
    expect(await at.db.noted.saveNoted(at.therapist, otherId, facts(2))).toEqual({ kind: 'not-found' });
  });

  it('bookings and observations come back in the order of their days, and one that is taken back is gone', async () => {
    const [first, second] = BOOKINGS;
    const [mark] = OBSERVATIONS;
    if (!first || !second || !mark) throw new Error('made-up things are missing');
    for (const [thing, content] of [['b2', second] as const, ['b1', first] as const])
      await save(facts(0, { kind: 'booking', thing, day: content.day, content, deed: 'visit booked' }));
    await save(facts(0, { kind: 'observation', thing: 'o1', day: mark.day, content: mark, deed: 'observation added' }));
    expect(await recordNow()).toMatchObject({
      bookings: [
        { ...first, bookingId: 'b1', number: 1 },
        { ...second, bookingId: 'b2' },
      ],
      observations: [{ ...mark, observationId: 'o1' }],
    });
    const gone = { kind: 'observation', thing: 'o1', content: null, deed: 'observation taken back', reason: 'other leg' } as const;
    expect(await save(facts(1, gone))).toEqual({ kind: 'saved' });
    expect((await recordNow())?.observations).toEqual([]);
    expect((await at.db.noted.notedHistory(at.therapist, patientId, 'observation')).map(({ content }) => content)).toEqual([null, mark]);
  });
});

import type { MadeUpClinic } from '@/tests/db/made-up-clinic';
import { details, visitOn } from '@/tests/db/made-up-records';

/** What many editors of the same visits got: corrections that were told to be saved, and those that lost to another. */
export type Edited = {
  readonly editors: number;
  readonly saved: number;
  readonly lost: number;
  /** Losers that were not shown the other's newer version beside their own. */
  readonly leftInTheDark: number;
  /** Corrections told to be saved of which no revision is there, or more than one. */
  readonly gone: number;
};

/** Corrections an editor makes of one visit before all go on to the next. */
const SPELL = 4;

/**
 * So many editors correct the same few visits at the same time, each until so many of their corrections are saved.
 *
 * Who loses starts again from what they were shown. Each correction bears a mark of its own, by which it is looked for at the end.
 */
export async function editTogether(at: MadeUpClinic, editors: number, saves: number, visits: number): Promise<Edited> {
  const { db, therapist } = at;
  const added = await db.patients.addPatient(therapist, { submissionId: crypto.randomUUID(), details: details('HL-0001') });
  const patientId = 'patientId' in added ? added.patientId : '';
  const shared: string[] = [];
  for (let number = 0; number < visits * Math.ceil(saves / SPELL); number++) {
    const saved = await db.visits.saveVisit(therapist, { patientId, submissionId: crypto.randomUUID(), visit: visitOn('2026-10-14') });
    if ('visitId' in saved) shared.push(saved.visitId);
  }
  const told: { visitId: string; mark: string }[] = [];
  let lost = 0;
  let leftInTheDark = 0;

  async function edit(editor: number): Promise<void> {
    for (let done = 0; done < saves; done++) {
      const visitId = shared[Math.floor(done / SPELL) * visits + (editor % visits)] ?? '';
      const mark = `${editor}/${done}`;
      const visit = visitOn('2026-10-14', mark);
      let revision = (await db.reading.keptVisit(therapist, visitId))?.revision ?? 0;
      for (;;) {
        const ended = await db.visits.reviseVisit(therapist, visitId, revision, {
          submissionId: crypto.randomUUID(),
          visit,
          reason: 'mark',
        });
        if (ended.kind === 'saved') break;
        if (ended.kind !== 'conflict') throw new Error(ended.kind);
        lost += 1;
        if (ended.theirs.revision <= revision || ended.yours.note !== mark) leftInTheDark += 1;
        revision = ended.theirs.revision;
      }
      told.push({ visitId, mark });
    }
  }
  await Promise.all(Array.from({ length: editors }, (_one, editor) => edit(editor)));

  const database = await db.client.getDatabase();
  const { visitId, note } = db.schema.visitRevision;
  const kept = (await database.select({ visitId, note }).from(db.schema.visitRevision)).map((row) => `${row.visitId} ${row.note}`);
  const times = new Map<string, number>();
  for (const one of kept) times.set(one, (times.get(one) ?? 0) + 1);
  const gone = told.filter((one) => times.get(`${one.visitId} ${one.mark}`) !== 1).length;
  return { editors, saved: told.length, lost, leftInTheDark, gone: gone + (kept.length - shared.length - told.length) };
}

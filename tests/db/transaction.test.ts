import { sql } from 'drizzle-orm';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Statement } from '@/db/audit/statement';
import { type ClinicOn, clinicOn, ENGINES } from './clinic-on';
import { details, pieceFrom, visitOn } from './made-up-records';

describe.each(ENGINES)('a write on %s', (engine) => {
  let at: ClinicOn;
  let patientId: string;
  let visitId: string;
  const form = () => crypto.randomUUID();

  beforeAll(async () => {
    at = await clinicOn(engine);
    const added = await at.db.patients.addPatient(at.therapist, { submissionId: form(), details: details('HL-0001') });
    patientId = added.kind === 'saved' ? added.patientId : '';
    const saved = await at.db.visits.saveVisit(at.therapist, { patientId, submissionId: form(), visit: visitOn('2026-10-14') });
    visitId = saved.kind === 'saved' ? saved.visitId : '';
  });
  afterAll(async () => at?.close());

  const kept = ['patient', 'patientRevision', 'visit', 'visitRevision', 'ladder', 'piece', 'pieceRevision', 'audit'] as const;

  async function everything() {
    const database = await at.db.client.getDatabase();
    const rows = await Promise.all(kept.map((name) => database.select().from(at.db.schema[name])));
    return Object.fromEntries(kept.map((name, index) => [name, rows[index]]));
  }

  it.each([0, 1, 2, 3, 4])('that touches no row at step %i leaves nothing behind and names the step', async (step) => {
    const { clinic } = at.db.schema;
    const insert = (id: string): Statement => {
      const row = { id, name: 'n', subtitle: 's', lengthUnit: 'in', massUnit: 'lb', timeZone: 'UTC' } as const;
      return (tx) => tx.insert(clinic).values(row).returning();
    };
    const nothing: Statement = (tx) => tx.update(clinic).set({ name: 'x' }).where(sql`1 = 0`).returning();
    const statements = [0, 1, 2, 3, 4].map((index) => (index === step ? nothing : insert(`step ${index}`)));
    const database = await at.db.client.getDatabase();
    const before = await database.select().from(clinic);
    expect(await at.db.together.inTransaction(statements)).toEqual({ kind: 'untouched', step });
    expect(await database.select().from(clinic)).toEqual(before);
  });

  const paths: Record<string, { tables: string[]; write: () => Promise<unknown> }> = {
    'new patient': {
      tables: ['patient', 'patient_revision', 'audit'],
      write: () => at.db.patients.addPatient(at.therapist, { submissionId: form(), details: details(form()) }),
    },
    'new visit': {
      tables: ['visit', 'visit_revision', 'ladder', 'audit'],
      write: () => at.db.visits.saveVisit(at.therapist, { patientId, submissionId: form(), visit: visitOn('2026-11-01') }),
    },
    'corrected visit': {
      tables: ['visit_revision', 'ladder', 'audit'],
      write: () => at.db.visits.reviseVisit(at.therapist, visitId, 1, { submissionId: form(), visit: visitOn('2026-11-02'), reason: 'r' }),
    },
    'new piece': {
      tables: ['piece', 'piece_revision', 'audit'],
      write: () => at.db.pieces.savePiece(at.therapist, { patientId, submissionId: form(), piece: pieceFrom(visitId, '2026-10-14') }),
    },
  };
  const steps = Object.entries(paths).flatMap(([path, { tables }]) => tables.map((table) => ({ path, table })));

  it.each(steps)('($path) that fails in the database at $table leaves nothing behind, and succeeds once the fault is gone', async (one) => {
    const before = await everything();
    await breakInserts(one.table);
    await expect(paths[one.path]?.write()).rejects.toThrow();
    expect(await everything()).toEqual(before);
    await mendInserts(one.table);
    if (one.table === 'audit') {
      expect(await paths[one.path]?.write()).toMatchObject({ kind: 'saved' });
      expect(await everything()).not.toEqual(before);
    }
  });

  async function run(statement: string) {
    const database = (await at.db.client.getDatabase()) as unknown as Record<'run' | 'execute', (text: unknown) => unknown>;
    await (engine === 'sqlite' ? database.run(sql.raw(statement)) : database.execute(sql.raw(statement)));
  }

  /** A fault planted in the database itself: every insert into the table fails from now on. */
  async function breakInserts(table: string) {
    if (engine === 'sqlite') {
      await run(`create trigger fault before insert on ${table} begin select raise(abort, 'planted fault'); end`);
    } else {
      await run("create or replace function fault() returns trigger language plpgsql as $$ begin raise exception 'planted fault'; end $$");
      await run(`create trigger fault before insert on ${table} for each row execute function fault()`);
    }
  }

  async function mendInserts(table: string) {
    await run(engine === 'sqlite' ? 'drop trigger fault' : `drop trigger fault on ${table}`);
  }
});

import { createHash, createHmac } from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';
import { asc, eq } from 'drizzle-orm';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type ClinicOn, clinicOn, ENGINES } from './clinic-on';
import { details, visitOn } from './made-up-records';

const form = () => crypto.randomUUID();

describe.each(ENGINES)('the chain of deeds on %s', (engine) => {
  let at: ClinicOn;
  let patientId: string;
  let check: typeof import('@/db/upkeep/check-audit').checkAudit;

  beforeAll(async () => {
    at = await clinicOn(engine);
    ({ checkAudit: check } = await import('@/db/upkeep/check-audit'));
    const added = await at.db.patients.addPatient(at.therapist, { submissionId: form(), details: details('HL-0001') });
    patientId = 'patientId' in added ? added.patientId : '';
  });
  afterAll(async () => at?.close());

  const save = (leftOpen: string[] = []) =>
    at.db.visits.saveVisit(at.therapist, { patientId, submissionId: form(), visit: visitOn('2026-10-14'), leftOpen });

  async function rows(clinicId = at.therapist.clinicId) {
    const database = await at.db.client.getDatabase();
    const { audit } = at.db.schema;
    return database.select().from(audit).where(eq(audit.clinicId, clinicId)).orderBy(asc(audit.number));
  }

  /** Made anew from the words of RFC 2104 and the layout in the manual of this program, without a line of the program. */
  function chainOf(kept: Awaited<ReturnType<typeof rows>>, key: string): string[] {
    let before = '';
    return kept.map((row) => {
      const inOrder = (value: unknown): unknown =>
        value && typeof value === 'object' && !Array.isArray(value)
          ? Object.fromEntries(
              Object.entries(value)
                .sort()
                .map(([name, one]) => [name, inOrder(one)]),
            )
          : value;
      const digest =
        row.salt === null || row.detail === null
          ? null
          : createHash('sha256')
              .update(`${row.salt}\n${JSON.stringify(inOrder(row.detail))}`)
              .digest('base64url');
      const values = [row.clinicId, row.number, row.id, row.at.getTime(), row.who, row.action, row.subjectKind, row.subjectId, digest];
      const linked = row.contents === null ? values : [...values, row.contents];
      before = createHmac('sha256', key)
        .update(`${before}\n${JSON.stringify(linked)}`)
        .digest('base64url');
      return before;
    });
  }

  it('is numbered without a gap and sealed row on row, in every clinic by itself', async () => {
    await save(['“é” – 7¾ in', 'zweite']);
    const key = process.env.AUDIT_KEY || fs.readFileSync(path.join(path.dirname(at.file), 'audit-key'), 'utf8');
    for (const clinicId of [at.therapist.clinicId, at.stranger.clinicId]) {
      const kept = await rows(clinicId);
      expect(kept.map((row) => row.number)).toEqual(kept.map((_row, index) => index + 1));
      expect(kept.map((row) => row.link)).toEqual(chainOf(kept, key));
      expect((await check(await at.db.client.getDatabase(), clinicId, [])).problems).toEqual([]);
    }
  });

  it('holds when many write at once', async () => {
    const before = (await rows()).length;
    await Promise.all(Array.from({ length: 40 }, () => save()));
    expect(await rows()).toHaveLength(before + 40);
    expect((await check(await at.db.client.getDatabase(), at.therapist.clinicId, [])).problems).toEqual([]);
  });

  it('holds also while it is being written', async () => {
    const database = await at.db.client.getDatabase();
    const writing = Promise.all(Array.from({ length: 30 }, () => save()));
    const found: string[] = [];
    for (let look = 0; look < 10; look++) found.push(...(await check(database, at.therapist.clinicId, [])).problems);
    await writing;
    expect(found).toEqual([]);
  });

  it('a write that is undone leaves no number behind', async () => {
    const before = (await rows()).length;
    const submissionId = form();
    const entry = { patientId, submissionId, visit: visitOn('2026-10-14') };
    const both = await Promise.all([at.db.visits.saveVisit(at.therapist, entry), at.db.visits.saveVisit(at.therapist, entry)]);
    expect(both.map((one) => one.kind).sort()).toEqual(['already-saved', 'saved']);
    expect((await rows()).map((row) => row.number)).toEqual(Array.from({ length: before + 1 }, (_row, index) => index + 1));
  });

  it('looks at the newest rows only when asked to, and at a head kept elsewhere', async () => {
    const database = await at.db.client.getDatabase();
    const whole = await check(database, at.therapist.clinicId, []);
    const part = await check(database, at.therapist.clinicId, [{ where: 'here', head: whole.head }], 3);
    expect([part.rows, part.problems]).toEqual([whole.rows, []]);
    const longer = { length: whole.rows + 2, link: 'x' };
    expect((await check(database, at.therapist.clinicId, [{ where: 'in b.json', head: longer }])).problems).toEqual([
      `2 rows at the end are missing: the head in b.json names row ${whole.rows + 2}, the last there is has number ${whole.rows}.`,
    ]);
    const other = { length: 2, link: 'x' };
    expect((await check(database, at.therapist.clinicId, [{ where: 'in b.json', head: other }])).problems).toEqual([
      'Row 2 is not the one that the head in b.json names.',
    ]);
  });
});

describe('the head beside a file', () => {
  let at: ClinicOn;
  beforeAll(async () => {
    at = await clinicOn('sqlite');
  });
  afterAll(async () => at?.close());

  const head = () => `${at.file}.audit-head`;
  const read = () => JSON.parse(fs.readFileSync(head(), 'utf8')) as Record<string, { length: number; link: string }>;
  const setting = async () => {
    await at.db.clinic.changeSetting(at.therapist, { key: 'k', value: 1, reason: null });
    (await import('@/db/audit/audit-head')).writeWaitingHeads();
  };

  it('names the newest row of each clinic within a second of a write', async () => {
    await setting();
    const database = await at.db.client.getDatabase();
    for (const one of await database.select().from(at.db.schema.auditHead)) {
      expect(read()[one.clinicId]).toEqual({ length: one.length, link: one.link });
    }
  });

  it('that the chain contradicts is set aside, not overwritten', async () => {
    const { clinicId } = at.therapist;
    const kept = read();
    fs.writeFileSync(head(), JSON.stringify({ ...kept, [clinicId]: { length: kept[clinicId]?.length, link: 'another history' } }));
    await setting();
    const aside = fs.readdirSync(path.dirname(at.file)).filter((name) => name.includes('.audit-head.doubt-'));
    expect(aside).toHaveLength(1);
    expect(fs.readFileSync(path.join(path.dirname(at.file), aside[0] ?? ''), 'utf8')).toContain('another history');
    expect(read()[clinicId]?.length).toBe((kept[clinicId]?.length ?? 0) + 1);
  });

  it('that is further on than the chain stays: rows were cut off', async () => {
    const { clinicId } = at.therapist;
    const further = { ...read(), [clinicId]: { length: 1000, link: 'of a row that was cut off' } };
    fs.writeFileSync(head(), JSON.stringify(further));
    await setting();
    expect(read()[clinicId]).toEqual(further[clinicId]);
  });

  it('a chain whose key is gone takes no row, and makes no other key', async () => {
    const key = path.join(path.dirname(at.file), 'audit-key');
    fs.renameSync(key, `${key}.away`);
    const again = await import('@/db/audit/audit-key');
    expect(again.auditKey(false)).toHaveLength(64); // this process has read it
    const { auditKey } = await fresh();
    expect(() => auditKey(false)).toThrow(/^The key that seals the history is missing\. Put \S+audit-key back, or set AUDIT_KEY\./);
    expect(fs.existsSync(key)).toBe(false);
    fs.renameSync(`${key}.away`, key);
  });

  async function fresh() {
    const { vi } = await import('vitest');
    vi.resetModules();
    return import('@/db/audit/audit-key');
  }
});

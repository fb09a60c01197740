import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { type ClinicOn, clinicOn, ENGINES } from './clinic-on';

const RIGHT = 'only for tests, the right key, seals nothing';
const WRONG = 'only for tests, another key, seals nothing!!';

describe.each(ENGINES)('the key that seals the history, on %s', (engine) => {
  let at: ClinicOn;

  beforeAll(async () => {
    at = await clinicOn(engine);
  });
  afterAll(async () => {
    delete process.env.AUDIT_KEY;
    await at?.close();
  });

  const setting = async (value: number) =>
    (await import('@/db/clinic/clinic')).changeSetting(at.therapist, { key: 'reference', value, reason: null });

  /** A process that starts with another key: modules forget what they knew. */
  function startedWith(key: string): void {
    vi.resetModules();
    process.env.AUDIT_KEY = key;
  }

  async function check() {
    const { checkAudit } = await import('@/db/upkeep/check-audit');
    return checkAudit(await (await import('@/db/client')).getDatabase(), at.therapist.clinicId, []);
  }

  it('that is another than the history was sealed with writes nothing, and says so in one line', async () => {
    const first = process.env.AUDIT_KEY;
    const before = (await check()).rows;
    startedWith(WRONG);
    await expect(setting(1)).rejects.toThrow(/^The newest row of the history was not sealed with this AUDIT_KEY/);
    if (first === undefined) delete process.env.AUDIT_KEY;
    else process.env.AUDIT_KEY = first;
    vi.resetModules();
    expect(await check()).toMatchObject({ rows: before, problems: [] });
    await setting(2);
    expect(await check()).toMatchObject({ rows: before + 1, problems: [] });
  });

  it('that is lost: a lead signs for what it sealed, the history says so, and goes on', async () => {
    const before = (await check()).rows;
    startedWith(RIGHT);
    const { brokenHistory, mendHistory } = await import('@/db/upkeep/mend-history');
    const found = await brokenHistory(at.therapist, []);
    expect(found.broken).toMatchObject([{ from: 1, to: before }]);
    expect(await mendHistory(at.therapist, found, 'the key was lost in the move')).toBe(true);
    await setting(3);
    const mended = await check();
    expect(mended.problems).toEqual([]);
    expect(mended.signedFor).toEqual([
      `Rows 1 to ${before} were sealed with another key, or changed; row ${before + 1} signs for them: the key was lost in the move`,
    ]);
    await expect(mendHistory({ ...at.therapist, role: 'therapist' }, found, 'x')).rejects.toThrow('Only a lead');
  });

  it('what was signed for cannot be changed afterwards', async () => {
    const { runSql } = await import('@/db/sql/run-sql');
    const database = await (await import('@/db/client')).getDatabase();
    if (engine === 'postgres') await runSql(database, 'alter table audit disable trigger all');
    else (database as unknown as { $client: { exec: (text: string) => void } }).$client.exec('drop trigger audit_refuses_update');
    const { audit } = await import('@/db/schema/schema');
    const { eq } = await import('drizzle-orm');
    await database.update(audit).set({ who: 'somebody else' }).where(eq(audit.number, 1));
    const { problems } = await check();
    expect(problems.join(' ')).toContain('are not those that row');
  });
});

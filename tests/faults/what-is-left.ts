import type { Database } from '@/db/sql/database';
import { PARTS, WHOLE } from './whole-visits';

/** What is there of visits that were acknowledged, and what the database and the chain of deeds complain of. */
export type Left = { readonly lost: number; readonly half: number; readonly problems: readonly string[] };

/** Looks for every acknowledged submission, and for parts of visits; then has everything checked. */
export async function whatIsLeft(database: Database, acknowledged: readonly string[]): Promise<Left> {
  const { runSql } = await import('@/db/sql/run-sql');
  const { checkData } = await import('@/db/upkeep/check-data');
  const whole = new Set((await runSql<{ id: string }>(database, WHOLE)).map((one) => one.id));
  const [parts] = await runSql<{ visits: number | string; homeless: number | string }>(database, PARTS);
  const { findings } = await checkData(database, []);
  return {
    lost: acknowledged.filter((id) => !whole.has(id)).length,
    half: Number(parts?.visits) - whole.size + Number(parts?.homeless),
    problems: findings.flatMap((one) => one.problems),
  };
}

import { asc } from 'drizzle-orm';
import type { KeptHeads, OuterHeads } from '../audit/audit-head';
import type { LatestSeal, LatestSeals } from '../audit/chain-walk';
import { clinic } from '../schema/schema';
import type { Database } from '../sql/database';
import { runSql } from '../sql/run-sql';
import { checkAudit, type OuterHead } from './check-audit';
import { checkContents } from './check-contents';
import { checkRecords } from './check-records';
import { checkSchema, type Finding } from './check-schema';
import { checkSearch } from './check-search';
import { checkService } from './check-service';

/** Everything that can be checked of a database, and the heads its chains end with. */
export type DataChecked = { readonly findings: readonly Finding[]; readonly heads: KeptHeads };

/** Checks the file or server, the schema, the revisions, and every clinic's audit chain against the heads kept outside. */
export async function checkData(database: Database, outer: readonly OuterHeads[]): Promise<DataChecked> {
  const history = await checkHistory(database, outer);
  const contents = await checkContents(
    database,
    history.seals,
    new Map(Object.entries(history.heads).map(([id, { length }]) => [id, length])),
  );
  return {
    findings: [
      ...(await checkSchema(database)),
      ...(await checkRecords(database)),
      ...history.findings,
      contents,
      await checkService(database),
      await checkSearch(database),
    ],
    heads: history.heads,
  };
}

/** Checks the audit chains alone; with `newest`, only so many rows from the end of each. */
export async function checkHistory(
  database: Database,
  outer: readonly OuterHeads[],
  newest?: number,
): Promise<DataChecked & { readonly seals: LatestSeals }> {
  const clinics = await database.select({ id: clinic.id, name: clinic.name }).from(clinic).orderBy(asc(clinic.id));
  const findings: Finding[] = [];
  const seals = new Map<string, LatestSeal>();
  const heads: Record<string, { length: number; link: string }> = {};
  for (const { id, name } of clinics) {
    const kept = outer.flatMap(({ where, heads }): OuterHead[] => (heads[id] ? [{ where, head: heads[id] }] : []));
    const checked = await readable(checkAudit(database, id, kept, newest));
    if (!checked) {
      findings.push({ looked: '', problems: [`${name}: a row of the history cannot be read.`] });
      continue;
    }
    heads[id] = checked.head;
    for (const [row, seal] of checked.seals) seals.set(row, seal);
    findings.push({ looked: told(name, checked, kept), problems: checked.problems.map((problem) => `${name}: ${problem}`) });
  }
  const strays = await runSql<{ id: string }>(
    database,
    'select clinic_id as id from audit where clinic_id not in (select id from clinic) union select clinic_id from audit_head where clinic_id not in (select id from clinic)',
  );
  if (strays.length > 0)
    findings.push({ looked: '', problems: strays.map(({ id }) => `There is history of a clinic ${id} that is not there.`) });
  const known = new Set(clinics.map((one) => one.id));
  const gone = outer.flatMap(({ where, heads }) =>
    Object.keys(heads)
      .filter((id) => !known.has(id))
      .map((id) => `The clinic ${id}, which the head ${where} names, is not there.`),
  );
  if (gone.length > 0) findings.push({ looked: '', problems: gone });
  return { findings, heads, seals };
}

/** What a check gives; undefined when a value in a row could not be parsed. */
async function readable<T>(check: Promise<T>): Promise<T | undefined> {
  try {
    return await check;
  } catch (error) {
    if (error instanceof SyntaxError) return undefined;
    throw error;
  }
}

function told(
  name: string,
  { rows, sealed, erased, asItStood, signedFor }: Awaited<ReturnType<typeof checkAudit>>,
  kept: readonly OuterHead[],
): string {
  const before = sealed > 0 ? ` The first ${sealed} were written before the chain began and sealed then.` : '';
  const blanked = erased > 0 ? ` The detail of ${erased} was taken out by an erasure.` : '';
  const stood = asItStood.at
    ? ` ${asItStood.rows} rows of the record are from before deeds held what they wrote; they were sealed as they stood on ${asItStood.at.toISOString().slice(0, 10)}, and nothing is known of changes before that.`
    : '';
  const ends =
    kept.length > 0
      ? ` Its end was compared with the head ${kept.map((one) => one.where).join(' and ')}.`
      : ' No head kept elsewhere was given: a cut end would not be seen.';
  return `${name}: a history of ${rows} ${rows === 1 ? 'row' : 'rows'}, each sealed on the one before.${before}${blanked}${stood}${ends}${signedFor.map((one) => ` ${one}`).join('')}`;
}

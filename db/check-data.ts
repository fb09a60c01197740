import { asc } from 'drizzle-orm';
import type { KeptHeads, OuterHeads } from './audit-head';
import { checkAudit, type OuterHead } from './check-audit';
import { checkRecords } from './check-records';
import { checkSchema, type Finding } from './check-schema';
import type { Database } from './client';
import { clinic } from './schema';

/** Everything that can be checked of a database, and the heads its chains end with. */
export type DataChecked = { readonly findings: readonly Finding[]; readonly heads: KeptHeads };

/** Checks the file or server, the schema, the revisions, and every clinic's audit chain against the heads kept outside. */
export async function checkData(database: Database, outer: readonly OuterHeads[]): Promise<DataChecked> {
  const history = await checkHistory(database, outer);
  return { findings: [...(await checkSchema(database)), ...(await checkRecords(database)), ...history.findings], heads: history.heads };
}

/** Checks the audit chains alone; with `newest`, only so many rows from the end of each. */
export async function checkHistory(database: Database, outer: readonly OuterHeads[], newest?: number): Promise<DataChecked> {
  const clinics = await database.select({ id: clinic.id, name: clinic.name }).from(clinic).orderBy(asc(clinic.id));
  const findings: Finding[] = [];
  const heads: Record<string, { length: number; link: string }> = {};
  for (const { id, name } of clinics) {
    const kept = outer.flatMap(({ where, heads }): OuterHead[] => (heads[id] ? [{ where, head: heads[id] }] : []));
    const checked = await checkAudit(database, id, kept, newest);
    heads[id] = checked.head;
    findings.push({ looked: told(name, checked, kept), problems: checked.problems.map((problem) => `${name}: ${problem}`) });
  }
  const known = new Set(clinics.map((one) => one.id));
  const gone = outer.flatMap(({ where, heads }) =>
    Object.keys(heads)
      .filter((id) => !known.has(id))
      .map((id) => `The clinic ${id}, which the head ${where} names, is not there.`),
  );
  if (gone.length > 0) findings.push({ looked: '', problems: gone });
  return { findings, heads };
}

function told(name: string, { rows, sealed, erased }: Awaited<ReturnType<typeof checkAudit>>, kept: readonly OuterHead[]): string {
  const before = sealed > 0 ? ` The first ${sealed} were written before the chain began and sealed then.` : '';
  const blanked = erased > 0 ? ` The detail of ${erased} was taken out by an erasure.` : '';
  const ends =
    kept.length > 0
      ? ` Its end was compared with the head ${kept.map((one) => one.where).join(' and ')}.`
      : ' No head kept elsewhere was given: a cut end would not be seen.';
  return `${name}: a history of ${rows} ${rows === 1 ? 'row' : 'rows'}, each sealed on the one before.${before}${blanked}${ends}`;
}

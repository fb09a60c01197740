import path from 'node:path';
import { parseArgs } from 'node:util';
import { BESIDE, headFile, type KeptHeads, type OuterHeads, readHeads, writeHeads } from '@/db/audit/audit-head';
import { getDatabase } from '@/db/client';
import { engine } from '@/db/sql/columns';
import { databaseAddress } from '@/db/sql/database';
import { checkData } from '@/db/upkeep/check-data';
import { knownHeads } from '@/db/upkeep/known-heads';
import { runCommand } from './run-command';

/**
 * Says in plain sentences whether the clinic's data are whole: `npm run verify-data [-- --head file] [-- --keep-head file]`.
 *
 * `--head` compares the history with a head kept elsewhere (a file of `--keep-head`, or a backup's manifest). Beside a SQLite file the
 * program keeps one by itself. Ends with 0 when everything holds, else with 1.
 */
async function verifyData(): Promise<boolean> {
  const { values } = parseArgs({ options: { head: { type: 'string', multiple: true }, 'keep-head': { type: 'string' } } });
  const outer: OuterHeads[] = [];
  const problems: string[] = [];
  for (const file of values.head ?? []) {
    const heads = readHeads(file);
    if (heads) outer.push({ where: `in ${file}`, heads });
    else problems.push(`${file} holds no head of a history.`);
  }
  const database = await getDatabase();
  if (engine === 'sqlite') {
    const file = path.resolve(databaseAddress());
    outer.push(...knownHeads(file));
    if (!outer.some((one) => one.where === BESIDE && Object.keys(one.heads).length > 0)) {
      problems.push(`${headFile(file)} is missing or empty. The next save writes it anew; compare with the newest backup first (--head).`);
    }
  }
  const { findings, heads } = await checkData(database, outer);
  for (const { looked } of findings) if (looked) process.stdout.write(`${looked}\n`);
  problems.push(...findings.flatMap((one) => one.problems));
  if (values['keep-head']) problems.push(...keepHead(values['keep-head'], heads));
  else if (engine === 'postgres') process.stdout.write(`Heads, to be kept elsewhere (--keep-head file): ${JSON.stringify(heads)}\n`);
  for (const problem of problems) process.stdout.write(`PROBLEM  ${problem}\n`);
  process.stdout.write(
    problems.length === 0 ? 'Everything holds.\n' : `${problems.length} ${problems.length === 1 ? 'problem' : 'problems'} found.\n`,
  );
  return problems.length === 0;
}

/** Keeps the heads in a file elsewhere, unless it names more rows than there are: then it is the better witness, and stays. */
function keepHead(file: string, heads: KeptHeads): readonly string[] {
  const before = readHeads(file) ?? {};
  const longer = Object.entries(before).some(([id, head]) => head.length > (heads[id]?.length ?? 0));
  if (longer) return [`${file} names more rows than the history has: it was left as it is.`];
  writeHeads(file, heads);
  return [];
}

await runCommand(async () => ((await verifyData()) ? 0 : 1));

import path from 'node:path';
import { eq } from 'drizzle-orm';
import { MENDED } from '../audit/audit-actions';
import { BESIDE, headFile, headsBeside, type KeptHead, type OuterHeads } from '../audit/audit-head';
import { audit, auditHead, clinic } from '../schema/schema';
import { engine } from '../sql/columns';
import type { Database } from '../sql/database';
import { linkAt } from './check-audit';
import { backupsIn, manifestIn } from './rotate-backups';

/** Backups whose heads are compared: those made last. */
const BACKUPS = 5;

/** Where backups of a clinic's file are kept when nothing else is said. */
const backupFolder = (file: string) => path.join(path.dirname(path.resolve(file)), 'backups');

/** Every head of a SQLite file's history that is known outside it: beside it, and in the backups made last. */
export function knownHeads(file: string, folder = backupFolder(file)): readonly OuterHeads[] {
  const backups = backupsIn(folder, path.basename(file, '.db')).slice(0, BACKUPS);
  return [
    ...headsBeside(file),
    ...backups.flatMap((one) => {
      const heads = manifestIn(path.join(folder, one.file))?.audit;
      return heads ? [{ where: `of the backup ${one.file}`, heads }] : [];
    }),
  ];
}

/**
 * What speaks for a loss: the history is shorter than a head that is known, goes on from another row, or has no head beside it although
 * every write keeps one. A sentence each; cheap enough to be asked at every start, every backup and now and then in between.
 */
export async function historyDoubts(database: Database, file: string, folder = backupFolder(file)): Promise<readonly string[]> {
  if (engine !== 'sqlite') return [];
  const outer = knownHeads(file, folder);
  const chains = await database
    .select({ id: auditHead.clinicId, name: clinic.name, length: auditHead.length })
    .from(auditHead)
    .innerJoin(clinic, eq(clinic.id, auditHead.clinicId));
  const signed = await database.select({ detail: audit.detail }).from(audit).where(eq(audit.action, MENDED));
  const lost = new Set(
    signed.flatMap(({ detail }) => (Array.isArray(detail?.heads) ? (detail.heads as KeptHead[]) : [])).map((one) => one.link),
  );
  const doubts: string[] = [];
  for (const { id, name, length } of chains) {
    if (!outer.some(({ where, heads }) => where === BESIDE && heads[id]))
      doubts.push(`${name}: ${headFile(file)} is missing or names no row of this history. Compare with the newest backup.`);
    for (const { where, heads } of outer) {
      const head = heads[id];
      if (!head || lost.has(head.link) || head.length === 0) continue;
      if (head.length > length)
        doubts.push(
          `${name}: the history ends with row ${length}, but the head ${where} names row ${head.length}. What was done last is lost.`,
        );
      else if ((await linkAt(database, id, head.length)) !== head.link)
        doubts.push(`${name}: row ${head.length} of the history is not the one that the head ${where} names.`);
    }
  }
  return doubts;
}

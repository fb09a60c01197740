import fs from 'node:fs';
import path from 'node:path';
import type { Grown } from './audit-chain';
import { databaseAddress } from './client';
import { engine } from './columns';

/** The newest link of a clinic's chain as kept outside the database. */
export type KeptHead = { readonly length: number; readonly link: string };

/** Heads by clinic: what lies beside a SQLite file, in a backup's manifest, and in the file that `verify-data --head` is given. */
export type KeptHeads = Readonly<Record<string, KeptHead>>;

/** Where the heads of a SQLite file are kept. */
export const headFile = (file: string) => `${file}.audit-head`;

/**
 * Keeps the newest links beside the SQLite file, after the commit, so that a tail cut off the chain is seen.
 *
 * The file is replaced whole, without flushing it: after a power loss it may be a few rows behind the chain, which still proves all before.
 * A kept head that the chain contradicts is set aside, never overwritten. PostgreSQL keeps none: its processes hold no state on disk.
 */
export function keepHeads(grown: readonly Grown[]): void {
  if (engine !== 'sqlite' || grown.length === 0) return;
  const file = headFile(databaseAddress());
  try {
    const kept = readHeads(file) ?? {};
    if (grown.some((one) => contradicts(kept[one.clinicId], one))) fs.renameSync(file, `${file}.doubt-${Date.now()}`);
    const newer = grown.filter(
      (one) => one.from + one.links.length > (kept[one.clinicId]?.length ?? 0) || contradicts(kept[one.clinicId], one),
    );
    if (newer.length > 0) writeHeads(file, { ...kept, ...Object.fromEntries(newer.map((one) => [one.clinicId, headOf(one)])) });
  } catch {
    // The save is committed and stays so; `verify-data` says that the head beside the file is missing or behind.
  }
}

/** The heads in a file; undefined when there are none to be read. */
export function readHeads(file: string): KeptHeads | undefined {
  try {
    const found = JSON.parse(fs.readFileSync(file, 'utf8')) as KeptHeads | { readonly audit: KeptHeads };
    return 'audit' in found ? (found.audit as KeptHeads) : found;
  } catch {
    return undefined;
  }
}

/** Heads of audit chains kept outside the database, and where they were found (`beside the file`, `in the backup`). */
export type OuterHeads = { readonly where: string; readonly heads: KeptHeads };

/** The head beside a SQLite file, and any that was set aside because the chain contradicted it. */
export function headsBeside(file: string): readonly OuterHeads[] {
  const folder = path.dirname(path.resolve(file));
  const name = path.basename(headFile(file));
  const doubted = fs.readdirSync(folder).filter((one) => one.startsWith(`${name}.doubt-`));
  return [name, ...doubted].flatMap((one) => {
    const heads = readHeads(path.join(folder, one));
    return heads ? [{ where: one === name ? BESIDE : `in ${one}`, heads }] : [];
  });
}

/** Where the head lies that every write keeps. */
export const BESIDE = 'beside the file';

/** Replaces a file of heads whole. */
export function writeHeads(file: string, heads: KeptHeads): void {
  const aside = `${file}.${process.pid}`;
  fs.writeFileSync(aside, JSON.stringify(heads));
  fs.renameSync(aside, file);
}

function headOf({ from, links, before }: Grown): KeptHead {
  return { length: from + links.length, link: links.at(-1) ?? before };
}

/** True when the kept head names another link for a row that this write has seen: the last one before it, or one of its own. */
function contradicts(kept: KeptHead | undefined, { from, before, links }: Grown): boolean {
  if (!kept || kept.length < from || kept.length > from + links.length || kept.length === 0) return false;
  return kept.link !== (kept.length === from ? before : links[kept.length - from - 1]);
}

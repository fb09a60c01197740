import fs from 'node:fs';
import path from 'node:path';
import { engine } from '../sql/columns';
import { databaseAddress } from '../sql/database';
import type { Grown } from './audit-chain';

/** The newest link of a clinic's chain as kept outside the database. */
export type KeptHead = { readonly length: number; readonly link: string };

/** Heads by clinic: what lies beside a SQLite file, in a backup's manifest, and in the file that `verify-data --head` is given. */
export type KeptHeads = Readonly<Record<string, KeptHead>>;

/** Where the heads of a SQLite file are kept. */
export const headFile = (file: string) => `${file}.audit-head`;

/** How long newly written links wait until the file of heads is replaced, once for all that were written meanwhile. */
const WAIT_MS = 1000;

const waiting = new Map<string, Grown[]>();
let timer: NodeJS.Timeout | undefined;

/**
 * Keeps the newest links beside the SQLite file, after the commit, so that a tail cut off the chain is seen.
 *
 * Within a second, and when the program ends: replacing a file after every commit would double the cost of a save, because the next
 * commit's flush carries it too. It is not flushed by itself. A kill or a power loss leaves the head a second behind the chain; it still
 * proves all before. PostgreSQL keeps none: its processes hold no state on disk.
 */
export function keepHeads(grown: readonly Grown[]): void {
  if (engine !== 'sqlite' || grown.length === 0) return;
  const file = headFile(databaseAddress());
  waiting.set(file, [...(waiting.get(file) ?? []), ...grown]);
  if (timer) return;
  timer = setTimeout(writeWaitingHeads, WAIT_MS).unref();
  process.once('exit', writeWaitingHeads);
}

/** Replaces the files of heads now. */
export function writeWaitingHeads(): void {
  clearTimeout(timer);
  timer = undefined;
  process.off('exit', writeWaitingHeads);
  for (const [file, grown] of waiting) {
    try {
      mergeHeads(file, grown);
    } catch {
      // The saves are committed and stay so; `verify-data` says that the head beside the file is missing or behind.
    }
  }
  waiting.clear();
}

/** Takes the links of a write into a file of heads. A kept head that the chain contradicts is set aside, never overwritten. */
export function mergeHeads(file: string, grown: readonly Grown[]): void {
  const kept = readHeads(file) ?? {};
  const doubted = new Set(grown.filter((one) => contradicts(kept[one.clinicId], one)).map((one) => one.clinicId));
  if (doubted.size > 0) fs.renameSync(file, `${file}.doubt-${Date.now()}`);
  const heads: Record<string, KeptHead> = { ...kept };
  for (const one of grown) {
    if (doubted.has(one.clinicId) || one.from + one.links.length > (heads[one.clinicId]?.length ?? 0)) heads[one.clinicId] = headOf(one);
  }
  writeHeads(file, heads);
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
  fs.writeFileSync(aside, JSON.stringify(heads), { mode: 0o600 });
  fs.chmodSync(aside, 0o600);
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

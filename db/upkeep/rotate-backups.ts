import fs from 'node:fs';
import path from 'node:path';
import { type Manifest, manifestOf } from './backup-manifest';

/** Backups kept beside the newest: the last one of each of so many months. Clinic default; no source gives a figure. */
const MONTHS = 12;

const STAMPED = /^-\d{4}-\d{2}-\d{2}T\d{2}-\d{2}-\d{2}Z\.db$/;

/** A backup in a folder: its name, its place in the order in which they were made, when the clock said it was, and whether it is whole. */
export type FoundBackup = { readonly file: string; readonly sequence: number; readonly made: string; readonly isGood: boolean };

/** The backups of a name in a folder, the one made last first. */
export function backupsIn(folder: string, name: string): readonly FoundBackup[] {
  if (!fs.existsSync(folder)) return [];
  const own = fs.readdirSync(folder).filter((one) => one.startsWith(`${name}-`) && STAMPED.test(one.slice(name.length)));
  return own.map((file) => foundAs(folder, file)).sort(madeLastFirst);
}

/** Backups from before they were numbered stand before all others, in the order of their names. */
function madeLastFirst(one: FoundBackup, other: FoundBackup): number {
  return other.sequence - one.sequence || (one.file < other.file ? 1 : -1);
}

function foundAs(folder: string, file: string): FoundBackup {
  const manifest = manifestIn(path.join(folder, file));
  const isGood = manifest !== undefined && fs.statSync(path.join(folder, file)).size === manifest.bytes;
  return { file, sequence: manifest?.sequence ?? 0, made: manifest?.made ?? '', isGood };
}

/** What a backup should hold; undefined when nothing that can be read lies beside it. */
export function manifestIn(backup: string): Manifest | undefined {
  try {
    return JSON.parse(fs.readFileSync(manifestOf(backup), 'utf8')) as Manifest;
  } catch {
    return undefined;
  }
}

/**
 * Which of these backups may go: all but the `keep` good ones made last and whatever was made after the oldest of them, and the last one
 * of each of the twelve months made last.
 *
 * The order is the one in which they were made, by number: a clock that was wrong for a while names files wrongly.
 */
export function surplus(backups: readonly FoundBackup[], keep: number): readonly string[] {
  const lastFirst = [...backups].sort(madeLastFirst);
  const kept = new Set<string>();
  const months = new Set<string>();
  let good = 0;
  for (const [place, { file, made, isGood }] of lastFirst.entries()) {
    const month = made.slice(0, '2026-11'.length);
    if (place === 0 || good < keep) kept.add(file);
    if (!isGood) continue;
    good += 1;
    if (!months.has(month) && months.size < MONTHS) {
      months.add(month);
      kept.add(file);
    }
  }
  return lastFirst.map((one) => one.file).filter((file) => !kept.has(file));
}

/** Removes the backups of a name that may go, each with its manifest; gives what was removed. */
export function rotateBackups(folder: string, name: string, keep: number): readonly string[] {
  const gone = surplus(backupsIn(folder, name), keep);
  for (const one of gone) {
    fs.rmSync(path.join(folder, one));
    fs.rmSync(manifestOf(path.join(folder, one)), { force: true });
  }
  return gone;
}

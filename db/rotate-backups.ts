import fs from 'node:fs';
import path from 'node:path';
import { manifestOf } from './backup-manifest';

/** Backups kept beside the newest: the last one of each of so many months. Clinic default; no source gives a figure. */
const MONTHS = 12;

const STAMPED = /^-\d{4}-\d{2}-\d{2}T\d{2}-\d{2}-\d{2}Z\.db$/;

/**
 * Which of these backups may go: all but the newest `keep`, and the last one of each of the twelve latest months that have one.
 *
 * Names end in their moment and sort by it.
 */
export function surplus(backups: readonly string[], keep: number): readonly string[] {
  const newestFirst = [...backups].sort().reverse();
  const lastOfMonth = new Map<string, string>();
  for (const one of newestFirst) {
    const month = one.slice(-'2026-11-25T17-30-05Z.db'.length).slice(0, '2026-11'.length);
    if (!lastOfMonth.has(month) && lastOfMonth.size < MONTHS) lastOfMonth.set(month, one);
  }
  const kept = new Set([...newestFirst.slice(0, keep), ...lastOfMonth.values()]);
  return newestFirst.filter((one) => !kept.has(one));
}

/** Removes the backups of a name that may go, each with its manifest; gives what was removed. */
export function rotateBackups(folder: string, name: string, keep: number): readonly string[] {
  const own = fs.readdirSync(folder).filter((one) => one.startsWith(`${name}-`) && STAMPED.test(one.slice(name.length)));
  const gone = surplus(own, keep);
  for (const one of gone) {
    fs.rmSync(path.join(folder, one));
    fs.rmSync(manifestOf(path.join(folder, one)), { force: true });
  }
  return gone;
}

import { randomBytes } from 'node:crypto';
import fs from 'node:fs';
import path from 'node:path';
import { DatabaseRefused } from '../sql/database-refused';
import { privateFolder } from '../sql/private-files';

const SHORTEST = 32;
const read = new Map<string, string>();

/**
 * The key that seals the audit: AUDIT_KEY, else one kept outside the database in a file beside it, readable by this user only.
 *
 * It is made once, when a chain begins and there is none. A chain that has begun never gets another: without its key nothing is written.
 */
export function auditKey(begins: boolean): string {
  const given = process.env.AUDIT_KEY;
  if (given !== undefined && given !== '') {
    if (given.length < SHORTEST) throw new DatabaseRefused(`AUDIT_KEY is shorter than ${SHORTEST} characters.`);
    return given;
  }
  const file = auditKeyFile();
  const known = read.get(file);
  if (known) return known;
  if (!fs.existsSync(file)) {
    if (!begins) {
      throw new DatabaseRefused(
        `The key that seals the history is missing. Put ${file} back, or set AUDIT_KEY. Without it nothing is written.`,
      );
    }
    make(file);
  }
  const key = fs.readFileSync(file, 'utf8').trim();
  read.set(file, key);
  return key;
}

/** Where the key is kept when AUDIT_KEY does not give it: beside the SQLite file, or in `data/` when the records are on a server. */
function auditKeyFile(): string {
  const beside = process.env.DATABASE_URL ? 'data/clinic.db' : process.env.DB_FILE || 'data/clinic.db';
  return path.join(path.dirname(path.resolve(beside)), 'audit-key');
}

/** Written aside, flushed, then linked into place: of two processes that begin at once both end with the same key. */
function make(file: string): void {
  privateFolder(path.dirname(file));
  const aside = `${file}.${randomBytes(6).toString('hex')}`;
  fs.writeFileSync(aside, randomBytes(32).toString('hex'), { mode: 0o600, flush: true });
  try {
    fs.linkSync(aside, file);
  } catch (error) {
    if (!fs.existsSync(file)) throw error;
  } finally {
    fs.rmSync(aside);
  }
}

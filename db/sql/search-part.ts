import { type SQL, sql } from 'drizzle-orm';

/**
 * The table of what a search can begin with. It follows from `patient.search_text`, is kept by triggers of the database and written by nobody
 * else: it holds no content of its own, and a move fills it by itself.
 */
export const SEARCH_PART = 'search_part';

/** Characters of a part. A longer word is looked for by its beginning, and read in full at the patients so found. */
const PART_LENGTH = 16;
/** No character comes after this one, in either engine's order by code points. */
const LAST = '\u{10FFFF}';

/** The ids of patients of a clinic whose reference or name holds a word, or the beginning of a long one: a stretch of one index. */
export function patientsHolding(clinicId: string, word: string): SQL {
  const start = [...word].slice(0, PART_LENGTH).join('');
  const stretch = sql`part >= ${start} and part < ${start + LAST}`;
  return sql`select patient_id from ${sql.identifier(SEARCH_PART)} where clinic_id = ${clinicId} and ${stretch}`;
}

import { type SQL, type SQLWrapper, sql } from 'drizzle-orm';
import { engine } from './columns';

/** Whole days from one calendar day kept as text to another, worked out by the engine; null where one of them is not there. */
export function daysApart(earlier: SQLWrapper, later: SQLWrapper): SQL<number | null> {
  if (engine === 'postgres') return sql`(cast(${later} as date) - cast(${earlier} as date))`;
  return sql`cast(julianday(${later}) - julianday(${earlier}) as integer)`;
}

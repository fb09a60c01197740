import type { Database } from '../sql/database';
import type { Query } from '../sql/run-steps';
import type { Note } from './audit-chain';

/** One step of a write: a query that returns the rows it touched, or a note for the audit, which is written after all others. */
export type Statement = ((tx: Database) => Query) | { readonly note: Note };

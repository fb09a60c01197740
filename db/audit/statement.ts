import type { Database } from '../sql/database';
import type { Query } from '../sql/run-steps';
import type { AuditEntry } from './audit-chain';

/** One step of a write: a query that returns the rows it touched, or an entry of the audit, which is written after all others. */
export type Statement = ((tx: Database) => Query) | { readonly entry: AuditEntry };

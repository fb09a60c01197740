import type { AuditAction } from './audit-actions';
import type { Statement } from './statement';

/** What was done to which thing; typed words go into the detail, never into the name. */
export type AuditedAct = {
  readonly action: AuditAction;
  readonly subjectKind: string;
  readonly subjectId: string;
  readonly detail?: Readonly<Record<string, unknown>>;
};

/** The audit row of a write; it becomes the next link of the clinic's chain. */
export function auditEntry(by: { readonly id: string; readonly clinicId: string }, act: AuditedAct, at: Date): Statement {
  return { entry: { id: crypto.randomUUID(), clinicId: by.clinicId, at, who: by.id, ...act } };
}

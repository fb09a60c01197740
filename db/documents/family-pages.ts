import { and, desc, eq } from 'drizzle-orm';
import type { FamilyPage } from '@/lib/summary/family/family-content';
import { mayBeApproved } from '@/lib/summary/family/help-boxes';
import { auditEntry } from '../audit/audit-entry';
import { getDatabase } from '../client';
import { hasDied } from '../patients/course';
import { keptVisit } from '../patients/read-visits';
import { issuedDocument, user } from '../schema/schema';
import { assertMayWrite, type Therapist } from '../therapist';
import { inTransaction } from '../transaction';

/** A family page as it was approved: frozen with its visit and the version of its words. */
export type ApprovedPage = {
  readonly documentId: string;
  readonly patientId: string;
  readonly visitId: string | null;
  readonly language: string;
  readonly page: FamilyPage;
  readonly byName: string | null;
  readonly at: Date;
};

/** Freezes a page as its therapist approved it. Undefined when the visit is not the clinic's, its patient has died, or the page does not say whom to call by day and night; the same submission sent twice makes one. */
export async function approveFamilyPage(
  therapist: Therapist,
  entry: {
    readonly visitId: string;
    readonly submissionId: string;
    readonly page: FamilyPage;
    /** What the record had against it when somebody said that the garment fits all the same; for the history. */
    readonly despite?: readonly string[];
  },
  at = new Date(),
): Promise<string | undefined> {
  assertMayWrite(therapist);
  const visit = await keptVisit(therapist, entry.visitId);
  if (!visit || !mayBeApproved(entry.page) || (await hasDied(therapist, visit.patientId))) return undefined;
  const { page, submissionId, visitId, despite = [] } = entry;
  const detail = { visitId, ...(despite.length > 0 && { despite }) };
  const documentId = crypto.randomUUID();
  const whose = { id: documentId, clinicId: therapist.clinicId, patientId: visit.patientId, visitId, kind: 'family-page' as const };
  const row = { ...whose, language: page.language, templateVersion: page.version, content: page, author: therapist.id, at, submissionId };
  const written = await inTransaction([
    (tx) => tx.insert(issuedDocument).values(row).onConflictDoNothing().returning({ id: issuedDocument.id }),
    auditEntry(therapist, { action: 'family page approved', subjectKind: 'document', subjectId: documentId, detail }, at),
  ]);
  if (written.kind === 'written') return documentId;
  const database = await getDatabase();
  const [found] = await database
    .select({ id: issuedDocument.id })
    .from(issuedDocument)
    .where(and(eq(issuedDocument.clinicId, therapist.clinicId), eq(issuedDocument.submissionId, submissionId)));
  return found?.id;
}

const columns = {
  documentId: issuedDocument.id,
  patientId: issuedDocument.patientId,
  visitId: issuedDocument.visitId,
  language: issuedDocument.language,
  content: issuedDocument.content,
  byName: user.name,
  at: issuedDocument.at,
};

/** One approved page; undefined when the clinic has none of that id. */
export async function familyPageOf(therapist: Therapist, documentId: string): Promise<ApprovedPage | undefined> {
  return (await approvedWhere(therapist, eq(issuedDocument.id, documentId)))[0];
}

/** Every page approved from a patient's visits, the newest first. */
export async function familyPagesOf(therapist: Therapist, patientId: string): Promise<readonly ApprovedPage[]> {
  return approvedWhere(therapist, eq(issuedDocument.patientId, patientId));
}

async function approvedWhere(therapist: Therapist, wanted: ReturnType<typeof eq>): Promise<ApprovedPage[]> {
  const database = await getDatabase();
  const rows = await database
    .select(columns)
    .from(issuedDocument)
    .leftJoin(user, eq(user.id, issuedDocument.author))
    .where(and(eq(issuedDocument.clinicId, therapist.clinicId), eq(issuedDocument.kind, 'family-page'), wanted))
    .orderBy(desc(issuedDocument.at), desc(issuedDocument.id));
  return rows.map(({ content, ...row }) => ({ ...row, page: content as FamilyPage }));
}

import { and, desc, eq } from 'drizzle-orm';
import type { ReplacementLetter } from '@/lib/summary/letter/replacement-letter';
import { auditEntry } from '../audit/audit-entry';
import { getDatabase } from '../client';
import { hasDied } from '../patients/course';
import { patientHead } from '../patients/patients';
import { keptVisit } from '../patients/read-visits';
import { issuedDocument, user } from '../schema/schema';
import { assertMayWrite, type Therapist } from '../therapist';
import { inTransaction } from '../transaction';

/** A replacement letter as it was signed: frozen, with the visit of its new ladder and the version of its words. */
export type SignedLetter = {
  readonly letterId: string;
  readonly patientId: string;
  readonly visitId: string | null;
  readonly letter: ReplacementLetter;
  readonly byName: string | null;
  readonly at: Date;
};

/** Freezes a letter as it was signed. Undefined when patient or visit is not the clinic's, or the patient has died; the same submission sent twice makes one. */
export async function signLetter(
  therapist: Therapist,
  entry: {
    readonly patientId: string;
    readonly visitId: string | null;
    readonly submissionId: string;
    readonly letter: ReplacementLetter;
  },
  at = new Date(),
): Promise<string | undefined> {
  assertMayWrite(therapist);
  const { patientId, visitId, submissionId, letter } = entry;
  if (!(await patientHead(therapist, patientId)) || (await hasDied(therapist, patientId))) return undefined;
  if (visitId !== null && (await keptVisit(therapist, visitId))?.patientId !== patientId) return undefined;
  const letterId = crypto.randomUUID();
  const whose = { id: letterId, clinicId: therapist.clinicId, patientId, visitId, kind: 'replacement-letter' as const };
  const row = {
    ...whose,
    language: letter.language,
    templateVersion: letter.version,
    content: letter,
    author: therapist.id,
    at,
    submissionId,
  };
  const detail = { patientId, piece: letter.piece, reason: letter.reason };
  const written = await inTransaction([
    (tx) => tx.insert(issuedDocument).values(row).onConflictDoNothing().returning({ id: issuedDocument.id }),
    auditEntry(therapist, { action: 'replacement letter signed', subjectKind: 'document', subjectId: letterId, detail }, at),
  ]);
  if (written.kind === 'written') return letterId;
  const database = await getDatabase();
  const [found] = await database
    .select({ id: issuedDocument.id })
    .from(issuedDocument)
    .where(and(isLetter(therapist), eq(issuedDocument.submissionId, submissionId), eq(issuedDocument.patientId, patientId)));
  return found?.id;
}

/** One signed letter; undefined when the clinic has none of that id. */
export async function letterOf(therapist: Therapist, letterId: string): Promise<SignedLetter | undefined> {
  return (await lettersWhere(therapist, eq(issuedDocument.id, letterId)))[0];
}

/** Every letter signed for a patient, the newest first. */
export async function lettersOf(therapist: Therapist, patientId: string): Promise<readonly SignedLetter[]> {
  return lettersWhere(therapist, eq(issuedDocument.patientId, patientId));
}

function isLetter(therapist: Therapist): ReturnType<typeof and> {
  return and(eq(issuedDocument.clinicId, therapist.clinicId), eq(issuedDocument.kind, 'replacement-letter'));
}

async function lettersWhere(therapist: Therapist, wanted: ReturnType<typeof eq>): Promise<SignedLetter[]> {
  const database = await getDatabase();
  const rows = await database
    .select({
      letterId: issuedDocument.id,
      patientId: issuedDocument.patientId,
      visitId: issuedDocument.visitId,
      content: issuedDocument.content,
      byName: user.name,
      at: issuedDocument.at,
    })
    .from(issuedDocument)
    .leftJoin(user, eq(user.id, issuedDocument.author))
    .where(and(isLetter(therapist), wanted))
    .orderBy(desc(issuedDocument.at), desc(issuedDocument.id));
  return rows.map(({ content, ...row }) => ({ ...row, letter: content as ReplacementLetter }));
}

import { randomBytes } from 'node:crypto';
import { and, asc, desc, eq, gt, isNull } from 'drizzle-orm';
import type { FamilyPage } from '@/lib/summary/family/family-content';
import { auditEntry } from '../audit/audit-entry';
import { getDatabase } from '../client';
import { hasDied, isNotDead } from '../patients/course';
import { hashOf } from '../people/token-hash';
import { clinic, issuedDocument, shareLink, shareOpening, user } from '../schema/schema';
import { whenFree } from '../sql/storage-trouble';
import { assertMayWrite, type Therapist } from '../therapist';
import { inTransaction } from '../transaction';
import { familyPageOf } from './family-pages';

/** Days a link answers. Source: this program's figures for safety; clinic default. */
export const LINK_DAYS = 14;
/** Openings after which a link answers no more: a family opens it a few times, not hundreds. Clinic default. */
export const MOST_OPENINGS = 200;

/** A link as kept: the token itself never is. */
export type KeptLink = {
  readonly linkId: string;
  readonly documentId: string;
  readonly byName: string | null;
  readonly at: Date;
  readonly expiresAt: Date;
  readonly withdrawnAt: Date | null;
  readonly openings: readonly Date[];
};

/** Makes a link to an approved page; its token is handed out once. Undefined when the clinic has no such page, or its patient died. */
export async function openLink(therapist: Therapist, documentId: string, at = new Date()): Promise<string | undefined> {
  assertMayWrite(therapist);
  const page = await familyPageOf(therapist, documentId);
  if (!page || (await hasDied(therapist, page.patientId))) return undefined;
  const token = randomBytes(32).toString('base64url');
  const expiresAt = new Date(at.getTime() + LINK_DAYS * 86_400_000);
  const row = {
    id: crypto.randomUUID(),
    clinicId: therapist.clinicId,
    documentId,
    tokenHash: hashOf(token),
    expiresAt,
    by: therapist.id,
    at,
  };
  await inTransaction([
    (tx) => tx.insert(shareLink).values(row).returning({ id: shareLink.id }),
    auditEntry(therapist, { action: 'link to a family page made', subjectKind: 'document', subjectId: documentId }, at),
  ]);
  return token;
}

/** Withdraws a link at once, also for those who have opened it already; false when there is none to withdraw. */
export async function withdrawLink(therapist: Therapist, linkId: string, at = new Date()): Promise<boolean> {
  assertMayWrite(therapist);
  const written = await inTransaction([
    (tx) =>
      tx
        .update(shareLink)
        .set({ withdrawnAt: at, withdrawnBy: therapist.id })
        .where(and(eq(shareLink.id, linkId), eq(shareLink.clinicId, therapist.clinicId), isNull(shareLink.withdrawnAt)))
        .returning({ id: shareLink.id }),
    auditEntry(therapist, { action: 'link to a family page withdrawn', subjectKind: 'link', subjectId: linkId }, at),
  ]);
  return written.kind === 'written';
}

/** The links to one page, the newest first, with each time they were opened. */
export async function linksOf(therapist: Therapist, documentId: string): Promise<readonly KeptLink[]> {
  const database = await getDatabase();
  const { id, at, expiresAt, withdrawnAt } = shareLink;
  const links = await database
    .select({ linkId: id, documentId: shareLink.documentId, byName: user.name, at, expiresAt, withdrawnAt })
    .from(shareLink)
    .leftJoin(user, eq(user.id, shareLink.by))
    .where(and(eq(shareLink.clinicId, therapist.clinicId), eq(shareLink.documentId, documentId)))
    .orderBy(desc(at), desc(id));
  const opened = await database
    .select({ linkId: shareOpening.linkId, at: shareOpening.at })
    .from(shareOpening)
    .innerJoin(shareLink, eq(shareLink.id, shareOpening.linkId))
    .where(and(eq(shareLink.clinicId, therapist.clinicId), eq(shareLink.documentId, documentId)))
    .orderBy(asc(shareOpening.at));
  return links.map((link) => ({ ...link, openings: opened.filter((one) => one.linkId === link.linkId).map((one) => one.at) }));
}

/** Exchanges the token of a link for a cookie, and notes the opening; undefined for any token that does not answer, whatever the reason: also once its patient has died. */
export async function openSharedPage(token: string, at = new Date()): Promise<string | undefined> {
  const database = await getDatabase();
  const [link] = await database
    .select({ id: shareLink.id })
    .from(shareLink)
    .innerJoin(issuedDocument, eq(issuedDocument.id, shareLink.documentId))
    .where(
      and(
        eq(shareLink.tokenHash, hashOf(token)),
        isNull(shareLink.withdrawnAt),
        gt(shareLink.expiresAt, at),
        isNotDead(issuedDocument.patientId),
      ),
    );
  if (!link || (await database.$count(shareOpening, eq(shareOpening.linkId, link.id))) >= MOST_OPENINGS) return undefined;
  const cookie = randomBytes(32).toString('base64url');
  const opening = { id: crypto.randomUUID(), linkId: link.id, cookieHash: hashOf(cookie), at };
  await whenFree(async () => database.insert(shareOpening).values(opening));
  return cookie;
}

/** What a cookie opens: the page, by which link, whose it is, and the zone of the clinic's clock. */
export type SharedLink = {
  readonly linkId: string;
  readonly clinicId: string;
  readonly patientId: string;
  readonly timeZone: string;
  readonly page: FamilyPage;
};

/** The page behind a cookie with its link, while that is neither withdrawn nor expired and its patient lives. */
export async function sharedPage(cookie: string, at = new Date()): Promise<SharedLink | undefined> {
  const database = await getDatabase();
  const { patientId, content } = issuedDocument;
  const [found] = await database
    .select({ linkId: shareLink.id, clinicId: shareLink.clinicId, patientId, timeZone: clinic.timeZone, content })
    .from(shareOpening)
    .innerJoin(shareLink, eq(shareLink.id, shareOpening.linkId))
    .innerJoin(issuedDocument, eq(issuedDocument.id, shareLink.documentId))
    .innerJoin(clinic, eq(clinic.id, shareLink.clinicId))
    .where(
      and(
        eq(shareOpening.cookieHash, hashOf(cookie)),
        isNull(shareLink.withdrawnAt),
        gt(shareLink.expiresAt, at),
        isNotDead(issuedDocument.patientId),
      ),
    );
  if (!found) return undefined;
  const { content: page, ...link } = found;
  return { ...link, page: page as FamilyPage };
}

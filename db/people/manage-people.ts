import { and, eq, exists, isNotNull, isNull, ne, or } from 'drizzle-orm';
import { auditEntry } from '../audit/audit-entry';
import type { Statement } from '../audit/statement';
import { getDatabase } from '../client';
import { oneAtATime } from '../clinic/clinic';
import { account, user } from '../schema/schema';
import type { Database } from '../sql/database';
import { isDuplicate } from '../sql/is-duplicate';
import type { Role, Therapist } from '../therapist';
import { inTransaction } from '../transaction';
import { INVITE_DAYS, linkFor, type MadeLink, RESET_DAYS } from './one-time-links';
import { dropFactor } from './second-factor';

/** What came of a lead's wish: done, perhaps with a link to hand over; or why not. */
export type Managed =
  | { readonly kind: 'done'; readonly link?: MadeLink }
  | { readonly kind: 'not-found' | 'e-mail-taken' | 'last-lead' | 'oneself' | 'already' };

/** Invites a person: they are on the list at once, and choose their password with the link. */
export async function invitePerson(
  lead: Therapist,
  invited: { readonly name: string; readonly email: string; readonly role: Role },
  at = new Date(),
): Promise<Managed> {
  assertLeads(lead);
  const [id, times] = [crypto.randomUUID(), { createdAt: at, updatedAt: at }];
  const person = { id, clinicId: lead.clinicId, ...invited, email: invited.email.toLowerCase(), emailVerified: true, ...times };
  const proof = { id: crypto.randomUUID(), userId: id, accountId: id, providerId: 'credential', ...times };
  const { link, keep } = linkFor(id, lead.id, INVITE_DAYS, at);
  try {
    await inTransaction([
      (tx) => tx.insert(user).values(person).returning({ id: user.id }),
      (tx) => tx.insert(account).values(proof).returning({ id: account.id }),
      keep,
      auditEntry(lead, { action: 'person invited', subjectKind: 'person', subjectId: id, detail: { role: invited.role } }, at),
    ]);
  } catch (error) {
    if (isDuplicate(error)) return { kind: 'e-mail-taken' };
    throw error;
  }
  return { kind: 'done', link };
}

/** Makes a link with which a person chooses a password: to join when they never did, else a new one. */
export async function makeLink(lead: Therapist, personId: string, at = new Date()): Promise<Managed> {
  assertLeads(lead);
  const person = await personIn(lead, personId);
  if (!person) return { kind: 'not-found' };
  const { link, keep } = linkFor(personId, lead.id, person.password ? RESET_DAYS : INVITE_DAYS, at);
  const written = await inTransaction([
    stillIn(lead, personId, isNull(user.disabledAt), at),
    keep,
    auditEntry(lead, { action: 'one-time link made', subjectKind: 'person', subjectId: personId }, at),
  ]);
  return written.kind === 'written' ? { kind: 'done', link } : { kind: 'not-found' };
}

/** Changes what a person may do. The clinic keeps an active lead. */
export async function changeRole(lead: Therapist, personId: string, role: Role, at = new Date()): Promise<Managed> {
  assertLeads(lead);
  const person = await personIn(lead, personId);
  if (!person) return { kind: 'not-found' };
  if (person.role === role) return { kind: 'already' };
  const detail = { from: person.role, to: role };
  const written = await inTransaction([
    oneAtATime(lead),
    (tx) =>
      tx
        .update(user)
        .set({ role, updatedAt: at })
        .where(and(ofClinic(lead, personId), role === 'lead' ? undefined : isNotLastLead(tx, lead, personId)))
        .returning({ id: user.id }),
    auditEntry(lead, { action: 'role changed', subjectKind: 'person', subjectId: personId, detail }, at),
  ]);
  return { kind: written.kind === 'written' ? 'done' : 'last-lead' };
}

/** Keeps a person out from this moment on: their sessions and links end. The clinic keeps an active lead, and nobody does it to themselves. */
export async function disablePerson(lead: Therapist, personId: string, at = new Date()): Promise<Managed> {
  assertLeads(lead);
  if (personId === lead.id) return { kind: 'oneself' };
  if (!(await personIn(lead, personId))) return { kind: 'not-found' };
  const written = await inTransaction([
    oneAtATime(lead),
    (tx) =>
      tx
        .update(user)
        .set({ disabledAt: at, accessFrom: at, updatedAt: at })
        .where(and(ofClinic(lead, personId), isNull(user.disabledAt), isNotLastLead(tx, lead, personId)))
        .returning({ id: user.id }),
    auditEntry(lead, { action: 'person disabled', subjectKind: 'person', subjectId: personId }, at),
  ]);
  return { kind: written.kind === 'written' ? 'done' : 'already' };
}

/** Lets a disabled person sign in again. */
export async function enablePerson(lead: Therapist, personId: string, at = new Date()): Promise<Managed> {
  assertLeads(lead);
  const written = await inTransaction([
    (tx) =>
      tx
        .update(user)
        .set({ disabledAt: null, updatedAt: at })
        .where(and(ofClinic(lead, personId), isNotNull(user.disabledAt)))
        .returning({ id: user.id }),
    auditEntry(lead, { action: 'person enabled', subjectKind: 'person', subjectId: personId }, at),
  ]);
  return { kind: written.kind === 'written' ? 'done' : 'already' };
}

/**
 * Turns off a second factor that its person has lost. Their sessions end.
 *
 * A password that is too short to stand alone goes with it; then a link to choose another one comes back.
 */
export async function dropLostFactor(lead: Therapist, personId: string, at = new Date()): Promise<Managed> {
  assertLeads(lead);
  const person = await personIn(lead, personId);
  if (!person) return { kind: 'not-found' };
  const fresh = person.needsSecondFactor ? linkFor(personId, lead.id, RESET_DAYS, at) : undefined;
  const withoutPassword: Statement = (tx) =>
    tx.update(account).set({ password: null, needsSecondFactor: false }).where(eq(account.userId, personId)).returning({ id: account.id });
  const written = await inTransaction([
    (tx) => tx.update(user).set({ accessFrom: at, updatedAt: at }).where(ofClinic(lead, personId)).returning({ id: user.id }),
    ...dropFactor(personId),
    ...(fresh ? [withoutPassword, fresh.keep] : []),
    auditEntry(lead, { action: 'lost second factor turned off', subjectKind: 'person', subjectId: personId }, at),
  ]);
  if (written.kind === 'untouched') return { kind: 'already' };
  return fresh ? { kind: 'done', link: fresh.link } : { kind: 'done' };
}

async function personIn(lead: Therapist, personId: string) {
  const database = await getDatabase();
  const [found] = await database
    .select({ role: user.role, password: account.password, needsSecondFactor: account.needsSecondFactor })
    .from(user)
    .innerJoin(account, eq(account.userId, user.id))
    .where(ofClinic(lead, personId));
  return found;
}

function ofClinic(lead: Therapist, personId: string) {
  return and(eq(user.id, personId), eq(user.clinicId, lead.clinicId));
}

function stillIn(lead: Therapist, personId: string, also: ReturnType<typeof isNull>, at: Date): Statement {
  return (tx) =>
    tx
      .update(user)
      .set({ updatedAt: at })
      .where(and(ofClinic(lead, personId), also))
      .returning({ id: user.id });
}

/** True of a person who does not lead, or whose clinic has another lead who can sign in. */
function isNotLastLead(tx: Database, lead: Therapist, personId: string) {
  const anotherLead = tx
    .select({ id: user.id })
    .from(user)
    .innerJoin(account, eq(account.userId, user.id))
    .where(
      and(
        eq(user.clinicId, lead.clinicId),
        ne(user.id, personId),
        eq(user.role, 'lead'),
        isNull(user.disabledAt),
        isNotNull(account.password),
      ),
    );
  return or(ne(user.role, 'lead'), exists(anotherLead));
}

function assertLeads(person: Therapist): void {
  if (person.role !== 'lead') throw new Error('Somebody who does not lead the clinic asked to manage its people.');
}

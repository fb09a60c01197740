import { asc, eq, min } from 'drizzle-orm';
import { auditEntry } from '../audit/audit-entry';
import type { Statement } from '../audit/statement';
import { getDatabase } from '../client';
import type { Clinic } from '../clinic/clinic';
import { account, clinic, secondFactor, user } from '../schema/schema';
import { isDuplicate } from '../sql/is-duplicate';
import type { Role, Therapist } from '../therapist';
import { inTransaction } from '../transaction';
import { linkFor, type MadeLink, RESET_DAYS } from './one-time-links';
import { dropFactor } from './second-factor';
import { proofOf } from './signing-in';

/** A person who is to sign in; the password comes as its hash only. */
export type NewPerson = { readonly email: string; readonly name: string; readonly role: Role; readonly passwordHash: string };

/** How adding a person ended. */
export type PersonAdded = { readonly kind: 'added'; readonly id: string } | { readonly kind: 'e-mail-taken' };

/** A person of the clinic, as a lead sees them. */
export type ListedPerson = {
  readonly id: string;
  readonly name: string;
  readonly email: string;
  readonly role: Role;
  /** Invited: has not chosen a password yet. */
  readonly state: 'active' | 'disabled' | 'invited';
  readonly lastSignedInAt: Date | null;
  readonly hasSecondFactor: boolean;
};

/** A clinic's people, by name. */
export async function peopleOf(therapist: Therapist): Promise<readonly ListedPerson[]> {
  const database = await getDatabase();
  const { id, name, email, role, disabledAt, lastSignedInAt } = user;
  const rows = await database
    .select({ id, name, email, role, disabledAt, lastSignedInAt, password: account.password, factorId: secondFactor.id })
    .from(user)
    .leftJoin(account, eq(account.userId, user.id))
    .leftJoin(secondFactor, eq(secondFactor.id, user.id))
    .where(eq(user.clinicId, therapist.clinicId))
    .orderBy(asc(name), asc(id));
  return rows.map(({ disabledAt: disabled, password, factorId, ...person }) => ({
    ...person,
    state: disabled ? 'disabled' : password === null ? 'invited' : 'active',
    hasSecondFactor: factorId !== null,
  }));
}

/** A link to choose a new password, made from the command line; without the second factor, when that is lost too. */
export async function resetByCommand(email: string, isFactorLost: boolean, at = new Date()): Promise<MadeLink | undefined> {
  const proof = await proofOf(email);
  if (!proof || proof.isDisabled) return undefined;
  const { link, keep } = linkFor(proof.id, proof.id, RESET_DAYS, at);
  const detail = { secondFactorTurnedOff: isFactorLost && proof.sealedSecret !== null };
  await inTransaction([
    keep,
    ...(detail.secondFactorTurnedOff ? dropFactor(proof.id) : []),
    auditEntry(proof, { action: 'one-time link made by command', subjectKind: 'person', subjectId: proof.id, detail }, at),
  ]);
  return link;
}

/** The one clinic this database holds, for the command line, where nobody is signed in; undefined before the first person. */
export async function soleClinic(): Promise<Clinic | undefined> {
  const database = await getDatabase();
  const [first] = await database.select().from(clinic).orderBy(asc(clinic.id)).limit(1);
  return first;
}

/** The id of one person of each clinic, for a command that does something for all of them. */
export async function onePersonOfEachClinic(): Promise<readonly string[]> {
  const database = await getDatabase();
  const rows = await database
    .select({ clinicId: user.clinicId, id: min(user.id) })
    .from(user)
    .groupBy(user.clinicId)
    .orderBy(asc(user.clinicId));
  return rows.flatMap(({ id }) => id ?? []);
}

/** True when someone can sign in at all. */
export async function hasPeople(): Promise<boolean> {
  const database = await getDatabase();
  return (await database.$count(user)) > 0;
}

/** Opens a clinic together with its first person: for the command line, where nobody is signed in yet. */
export async function openClinic(details: Omit<Clinic, 'id'>, first: NewPerson, at = new Date()): Promise<PersonAdded> {
  const row = { ...details, id: crypto.randomUUID() };
  return addWith([(tx) => tx.insert(clinic).values(row).returning({ id: clinic.id })], row.id, first, at);
}

/** Adds a person to a clinic, from the command line. */
export async function addPerson(clinicId: string, person: NewPerson, at = new Date()): Promise<PersonAdded> {
  return addWith([], clinicId, person, at);
}

async function addWith(before: readonly Statement[], clinicId: string, person: NewPerson, at: Date): Promise<PersonAdded> {
  const id = crypto.randomUUID();
  const times = { createdAt: at, updatedAt: at };
  const email = person.email.toLowerCase();
  const who = { id, clinicId, role: person.role, name: person.name, email, emailVerified: true, ...times };
  const proof = { id: crypto.randomUUID(), userId: id, accountId: id, providerId: 'credential', password: person.passwordHash, ...times };
  try {
    await inTransaction([
      ...before,
      (tx) => tx.insert(user).values(who).returning({ id: user.id }),
      (tx) => tx.insert(account).values(proof).returning({ id: account.id }),
      auditEntry({ id, clinicId }, { action: 'person added', subjectKind: 'person', subjectId: id, detail: { role: person.role } }, at),
    ]);
  } catch (error) {
    if (isDuplicate(error)) return { kind: 'e-mail-taken' };
    throw error;
  }
  return { kind: 'added', id };
}

import { and, eq, isNull } from 'drizzle-orm';
import { getDatabase } from './client';
import { clinic, user } from './schema/schema';

/** What a person may do: lead and therapist write, read-only does not. */
export const ROLES = ['lead', 'therapist', 'read-only'] as const;
export type Role = (typeof ROLES)[number];

declare const signedIn: unique symbol;

/** A person known to be signed in. Every function of db takes one first and sees only that person's clinic. */
export type Therapist = { readonly id: string; readonly clinicId: string; readonly name: string; readonly role: Role } & {
  readonly [signedIn]: true;
};

/**
 * The person with this id, as the database knows them now; undefined when there is none who may sign in. The only maker of the brand.
 *
 * `since` is when their session began: one from before everything was ended opens nothing.
 */
export async function therapistWithId(id: string, since?: Date): Promise<Therapist | undefined> {
  const database = await getDatabase();
  const [found] = await database
    .select({ id: user.id, clinicId: user.clinicId, name: user.name, role: user.role, accessFrom: user.accessFrom })
    .from(user)
    .innerJoin(clinic, eq(clinic.id, user.clinicId))
    .where(and(eq(user.id, id), isNull(user.disabledAt)));
  if (!found) return undefined;
  const { accessFrom, ...therapist } = found;
  return since && accessFrom && since < accessFrom ? undefined : (therapist as Therapist);
}

/** Stops a write by someone who may only read. Screens refuse first, in words; this is the second fence. */
export function assertMayWrite(therapist: Therapist): void {
  if (therapist.role === 'read-only') throw new Error('A read-only person asked for a write.');
}

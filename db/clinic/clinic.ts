import { and, asc, eq } from 'drizzle-orm';
import type { LengthUnit } from '@/lib/units/length';
import type { MassUnit } from '@/lib/units/mass';
import { auditEntry } from '../audit/audit-entry';
import { getDatabase } from '../client';
import { clinic, clinicSetting } from '../schema/schema';
import { assertMayWrite, type Therapist } from '../therapist';
import { inTransaction } from '../transaction';

/** A clinic's name on the page head, the units it tapes and weighs in, and the zone its days are counted in. */
export type Clinic = {
  readonly id: string;
  readonly name: string;
  readonly subtitle: string;
  readonly lengthUnit: LengthUnit;
  readonly massUnit: MassUnit;
  readonly timeZone: string;
};

/** One setting as it stands: its value, and who chose it, when and why. */
export type Setting = {
  readonly key: string;
  readonly value: unknown;
  readonly by: string;
  readonly at: Date;
  readonly reason: string | null;
};

/** The clinic of the person signed in. */
export async function clinicOf(therapist: Therapist): Promise<Clinic> {
  const database = await getDatabase();
  const [found] = await database.select().from(clinic).where(eq(clinic.id, therapist.clinicId));
  if (!found) throw new Error('A signed-in person has no clinic.');
  return found;
}

/** Every setting the clinic has changed, by key. What is not there stands at its default. */
export async function settingsOf(therapist: Pick<Therapist, 'clinicId'>): Promise<ReadonlyMap<string, Setting>> {
  const database = await getDatabase();
  const changes = await database
    .select()
    .from(clinicSetting)
    .where(eq(clinicSetting.clinicId, therapist.clinicId))
    .orderBy(asc(clinicSetting.at), asc(clinicSetting.id));
  return new Map(changes.map(({ key, value, by, at, reason }) => [key, { key, value, by, at, reason }]));
}

/** Every value a setting has had, oldest first. */
export async function historyOfSetting(therapist: Therapist, key: string): Promise<readonly Setting[]> {
  const database = await getDatabase();
  return database
    .select({
      key: clinicSetting.key,
      value: clinicSetting.value,
      by: clinicSetting.by,
      at: clinicSetting.at,
      reason: clinicSetting.reason,
    })
    .from(clinicSetting)
    .where(and(eq(clinicSetting.clinicId, therapist.clinicId), eq(clinicSetting.key, key)))
    .orderBy(asc(clinicSetting.at), asc(clinicSetting.id));
}

/** Changes one setting of the clinic by adding a row; earlier values stay. */
export async function changeSetting(
  therapist: Therapist,
  change: { readonly key: string; readonly value: unknown; readonly reason: string | null },
  at = new Date(),
): Promise<void> {
  assertMayWrite(therapist);
  const row = { id: crypto.randomUUID(), clinicId: therapist.clinicId, by: therapist.id, at, ...change };
  await inTransaction([
    (tx) => tx.insert(clinicSetting).values(row).returning({ id: clinicSetting.id }),
    auditEntry(
      therapist,
      { action: 'setting changed', subjectKind: 'setting', subjectId: change.key, detail: { value: change.value } },
      at,
    ),
  ]);
}

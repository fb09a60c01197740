import { and, asc, count, eq, type SQL, sql } from 'drizzle-orm';
import type { LengthUnit } from '@/lib/units/length';
import type { MassUnit } from '@/lib/units/mass';
import { auditEntry } from '../audit/audit-entry';
import type { Statement } from '../audit/statement';
import { getDatabase } from '../client';
import { clinic, clinicSetting } from '../schema/schema';
import type { Database } from '../sql/database';
import { readyQuery } from '../sql/ready-query';
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

const { key, value, by, at, reason } = clinicSetting;

/** Most pages ask it several times. */
const changedSettings = readyQuery({ key, value, by, at, reason }, (database) =>
  database
    .select({ key, value, by, at, reason })
    .from(clinicSetting)
    .where(eq(clinicSetting.clinicId, sql.placeholder('clinicId')))
    .orderBy(asc(clinicSetting.at), asc(clinicSetting.id)),
);

/** Every setting the clinic has changed, by key. What is not there stands at its default. */
export async function settingsOf({ clinicId }: Pick<Therapist, 'clinicId'>): Promise<ReadonlyMap<string, Setting>> {
  const changes = await changedSettings(await getDatabase(), { clinicId });
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

/**
 * Changes one setting of the clinic by adding a row; earlier values stay.
 *
 * `after`: how many states the setting had when the form was opened. Where somebody added one since, nothing is written and the answer is `stale`.
 */
export async function changeSetting(
  therapist: Therapist,
  change: { readonly key: string; readonly value: unknown; readonly reason: string | null; readonly after?: number },
  at = new Date(),
): Promise<'saved' | 'stale'> {
  return writeSetting(therapist, change, [], at);
}

/** The same, with steps that go with the change: all or nothing. */
export async function writeSetting(
  therapist: Therapist,
  change: { readonly key: string; readonly value: unknown; readonly reason: string | null; readonly after?: number },
  also: readonly Statement[],
  at: Date,
): Promise<'saved' | 'stale'> {
  assertMayWrite(therapist);
  const { after, ...kept } = change;
  if (after !== undefined && !Number.isSafeInteger(after)) return 'stale';
  const row = { id: crypto.randomUUID(), clinicId: therapist.clinicId, by: therapist.id, at, ...kept };
  const detail = { value: change.value };
  const written = await inTransaction([
    ...(after === undefined ? [] : [oneAtATime(therapist), whileStatesAre(therapist, change.key, after)]),
    (tx) => tx.insert(clinicSetting).values(row).returning({ id: clinicSetting.id }),
    ...also,
    auditEntry(therapist, { action: 'setting changed', subjectKind: 'setting', subjectId: change.key, detail }, at),
  ]);
  return written.kind === 'written' ? 'saved' : 'stale';
}

/** Holds the clinic's row until the write is done, so that two people cannot change the same thing of a clinic at the same moment. */
export function oneAtATime(therapist: Pick<Therapist, 'clinicId'>): Statement {
  return (tx) => touchClinic(tx, eq(clinic.id, therapist.clinicId));
}

/** Touches the clinic's row only while a setting has so many states; after `oneAtATime`, so that none is added meanwhile. */
function whileStatesAre({ clinicId }: Therapist, key: string, states: number): Statement {
  return (tx) => {
    const mine = and(eq(clinicSetting.clinicId, clinicId), eq(clinicSetting.key, key));
    const counted = tx.select({ n: count() }).from(clinicSetting).where(mine);
    return touchClinic(tx, and(eq(clinic.id, clinicId), eq(sql`(${counted})`, states)));
  };
}

function touchClinic(tx: Database, where: SQL | undefined) {
  return tx
    .update(clinic)
    .set({ name: sql`${clinic.name}` })
    .where(where)
    .returning({ id: clinic.id });
}

import { and, eq, inArray, type SQL, sql } from 'drizzle-orm';
import { changedParts, type MOST_SUMS, nameOfPart, type ServicePart, summedParts } from '@/lib/service/service-parts';
import type { Statement } from '../audit/statement';
import { getDatabase } from '../client';
import { serviceCount, servicePart, workState } from '../schema/schema';
import { letOthers } from '../sql/let-others';
import { readEach } from '../sql/read-each';
import { unlessUnreachable } from '../sql/try-again';
import type { Therapist } from '../therapist';
import { inTransaction } from '../transaction';
import type { OfClinic } from './of-clinic';
import { partsOf } from './patient-parts';

/** Patients counted together. */
const AT_ONCE = 50;
/** Rows of one statement: PostgreSQL and SQLite bind a bounded number of values. */
const ROWS_AT_ONCE = 500;

/** Patients of the clinic whose part of the counts is not that of the record, at most so many. */
export async function uncountedOf(therapist: Therapist, most: number): Promise<readonly string[]> {
  const database = await getDatabase();
  const { patientId, clinicId, counted } = workState;
  const rows = await database
    .select({ patientId })
    .from(workState)
    .where(and(eq(clinicId, therapist.clinicId), eq(counted, false)))
    .limit(most);
  return rows.map((row) => row.patientId);
}

/** Counts patients of the clinic until none is left uncounted or `until` has passed. What cannot be written stays uncounted. */
export async function countUncounted(therapist: Therapist, until: () => boolean = () => false): Promise<void> {
  while (!until()) {
    const ids = await uncountedOf(therapist, AT_ONCE);
    if (ids.length === 0 || !(await countPatients(therapist, ids))) return;
    await letOthers();
  }
}

/**
 * Brings the parts of these patients, and by their difference the counts of the clinic, up to the record; whether any was.
 *
 * A patient that is written to, renewed or counted by another meanwhile touches no row and stays uncounted: all are tried together, and then one by one.
 * Nobody waits for it: where nothing can be written or the server is gone, patients stay uncounted, and what was saved before stands.
 */
export async function countPatients(therapist: Therapist, patientIds: readonly string[]): Promise<boolean> {
  return (await unlessUnreachable(() => countBatch(therapist, patientIds))) ?? false;
}

async function countBatch(therapist: Therapist, patientIds: readonly string[]): Promise<boolean> {
  const database = await getDatabase();
  const ours = and(eq(workState.clinicId, therapist.clinicId), inArray(workState.patientId, [...patientIds]), eq(workState.counted, false));
  const { patientId, changes, renewals } = workState;
  const states = await database.select({ patientId, changes, renewals }).from(workState).where(ours).orderBy(patientId);
  if (states.length === 0) return false;
  const ids = states.map((state) => state.patientId);
  const stored = await storedParts(therapist, ids);
  const { read } = await readEach(ids, async (some) => [...(await partsOf(database, therapist, some))]);
  const parts = new Map(read);
  const counts = states.flatMap((state) => {
    const [before, after] = [stored.get(state.patientId), parts.get(state.patientId)];
    // A record that cannot be read stays uncounted; the check of the data names it.
    if (!after) return [];
    const as = and(eq(patientId, state.patientId), eq(changes, state.changes), eq(renewals, state.renewals), eq(workState.counted, false));
    const change = changedParts(before ?? [], after);
    const steps: Statement[] = [(tx) => tx.update(workState).set({ counted: true }).where(as).returning({ id: patientId })];
    if (before === undefined || change.length > 0) steps.push(keepPart(therapist, state.patientId, after));
    return [{ steps, change }];
  });
  if (counts.length === 0) return false;
  if (await write(therapist, counts)) return true;
  let isAny = false;
  if (counts.length > 1) for (const count of counts) isAny = (await write(therapist, [count])) || isAny;
  return isAny;
}

type Count = { readonly steps: readonly Statement[]; readonly change: readonly ServicePart[] };

/** Patients are taken in one order and counts in another at the end, so that two of these never wait for each other in a ring. */
async function write(therapist: Therapist, counts: readonly Count[]): Promise<boolean> {
  const change = addToCounts(therapist.clinicId, summedParts(counts.flatMap((count) => count.change)));
  return (await inTransaction([...counts.flatMap(({ steps }) => steps), ...change])).kind === 'written';
}

function keepPart({ clinicId }: Therapist, patientId: string, parts: readonly ServicePart[]): Statement {
  return (tx) =>
    tx
      .insert(servicePart)
      .values({ patientId, clinicId, parts })
      .onConflictDoUpdate({ target: servicePart.patientId, set: { parts } })
      .returning({ id: servicePart.patientId });
}

/** The parts of these patients as they were last added to the counts. */
export async function storedParts(
  therapist: OfClinic,
  patientIds: readonly string[],
): Promise<ReadonlyMap<string, readonly ServicePart[]>> {
  const database = await getDatabase();
  const { patientId, clinicId, parts } = servicePart;
  const rows = await database
    .select({ patientId, parts })
    .from(servicePart)
    .where(and(eq(clinicId, therapist.clinicId), inArray(patientId, [...patientIds])));
  return new Map(rows.map((row) => [row.patientId, row.parts]));
}

/** The statements that add parts to the counts of a clinic. */
export function addToCounts(clinicId: string, change: readonly ServicePart[]): readonly ((tx: Tx) => ReturnType<typeof upsert>)[] {
  const rows = [...change]
    .sort((one, other) => (nameOfPart(one) < nameOfPart(other) ? -1 : 1))
    .map(({ figure, at, of, sums }) => ({ id: crypto.randomUUID(), clinicId, figure, at, of, ...sumsOf(sums) }));
  const steps: ((tx: Tx) => ReturnType<typeof upsert>)[] = [];
  for (let from = 0; from < rows.length; from += ROWS_AT_ONCE) steps.push((tx) => upsert(tx, rows.slice(from, from + ROWS_AT_ONCE)));
  return steps;
}

type Tx = Awaited<ReturnType<typeof getDatabase>>;

function upsert(tx: Tx, rows: (typeof serviceCount.$inferInsert)[]) {
  const { clinicId, figure, at, of } = serviceCount;
  return tx
    .insert(serviceCount)
    .values(rows)
    .onConflictDoUpdate({ target: [clinicId, figure, at, of], set: ADDED })
    .returning({ id: serviceCount.id });
}

function sumsOf(sums: readonly number[]) {
  const [sum0 = 0, sum1 = 0, sum2 = 0, sum3 = 0, sum4 = 0, sum5 = 0, sum6 = 0] = sums;
  return { sum0, sum1, sum2, sum3, sum4, sum5, sum6 };
}

const SUMS = ['sum0', 'sum1', 'sum2', 'sum3', 'sum4', 'sum5', 'sum6'] as const satisfies { readonly length: typeof MOST_SUMS };
const ADDED = Object.fromEntries(SUMS.map((name) => [name, sql`${serviceCount[name]} + excluded.${sql.raw(name)}`])) as Record<
  (typeof SUMS)[number],
  SQL
>;

/** The seven sums of a count, in their order. */
export function sumsIn(row: Record<(typeof SUMS)[number], number>): readonly number[] {
  return SUMS.map((name) => Number(row[name]));
}

/** Counts in which nothing is left. */
export function countsOfNothing(clinicId: string): SQL | undefined {
  return and(eq(serviceCount.clinicId, clinicId), ...SUMS.map((name) => eq(serviceCount[name], 0)));
}

import { and, asc, eq, gt, inArray } from 'drizzle-orm';
import type { Ladder } from '@/lib/ladder/ladder';
import { groupedBy } from '@/lib/record/grouped-by';
import type { Visit } from '@/lib/record/patient-record';
import { getDatabase } from '../client';
import { ladder, user, visit, visitRevision } from '../schema/schema';
import type { Database } from '../sql/database';
import type { Therapist } from '../therapist';
import { REVOKED } from './revoked';

/** A ladder as it was kept, with the interval that was typed. */
export type KeptLadder = Ladder & { readonly intervalText: string | null };

/** One revision of a visit: what was measured, and who wrote it, when and why. */
export type KeptVisit = Omit<Visit, 'ladders'> & {
  readonly ladders: readonly KeptLadder[];
  readonly visitId: string;
  readonly patientId: string;
  readonly revision: number;
  readonly author: string;
  readonly authorName: string | null;
  readonly at: Date;
  readonly reason: string | null;
};

const revisionColumns = {
  revisionId: visitRevision.id,
  visitId: visit.id,
  patientId: visit.patientId,
  revision: visitRevision.number,
  day: visitRevision.day,
  time: visitRevision.time,
  posture: visitRevision.posture,
  measurer: visitRevision.measurer,
  height: visitRevision.height,
  weight: visitRevision.weight,
  note: visitRevision.note,
  readings: visitRevision.readings,
  measures: visitRevision.measures,
  keptBody: visitRevision.keptBody,
  occasion: visitRevision.occasion,
  author: visitRevision.author,
  authorName: user.name,
  at: visitRevision.at,
  reason: visitRevision.reason,
};

const isCurrent = and(eq(visitRevision.visitId, visit.id), eq(visitRevision.number, visit.revision));

/** Every visit of these patients as it stands now, by day and then clock time: two queries however many patients. */
export async function visitsOfPatients(therapist: Therapist, patientIds: readonly string[]): Promise<readonly KeptVisit[]> {
  if (patientIds.length === 0) return [];
  const database = await getDatabase();
  const theirs = and(eq(visit.clinicId, therapist.clinicId), inArray(visit.patientId, [...patientIds]));
  const [revisions, ladders] = await Promise.all([
    database
      .select(revisionColumns)
      .from(visit)
      .innerJoin(visitRevision, isCurrent)
      .leftJoin(user, eq(user.id, visitRevision.author))
      .where(theirs),
    database
      .select(ladderColumns)
      .from(visit)
      .innerJoin(visitRevision, isCurrent)
      .innerJoin(ladder, eq(ladder.visitRevisionId, visitRevision.id))
      .where(theirs),
  ]);
  return withLadders(revisions, ladders).sort(byDayAndTime);
}

/** One visit as it stands now; undefined when the clinic has none of that id. */
export async function keptVisit(therapist: Therapist, visitId: string): Promise<KeptVisit | undefined> {
  const database = await getDatabase();
  const rows = await database
    .select(revisionColumns)
    .from(visit)
    .innerJoin(visitRevision, isCurrent)
    .leftJoin(user, eq(user.id, visitRevision.author))
    .where(and(eq(visit.clinicId, therapist.clinicId), eq(visit.id, visitId)));
  const [row] = rows;
  return row && withLadders(rows, await laddersOf(database, [row.revisionId]))[0];
}

/** One visit with every revision it has had, oldest first. */
export async function visitWithHistory(
  therapist: Therapist,
  visitId: string,
): Promise<{ readonly current: KeptVisit; readonly revisions: readonly KeptVisit[] } | undefined> {
  const database = await getDatabase();
  const ours = and(eq(visit.clinicId, therapist.clinicId), eq(visit.id, visitId), gt(visit.revision, REVOKED));
  const rows = await database
    .select(revisionColumns)
    .from(visit)
    .innerJoin(visitRevision, eq(visitRevision.visitId, visit.id))
    .leftJoin(user, eq(user.id, visitRevision.author))
    .where(ours)
    .orderBy(asc(visitRevision.number));
  const ids = rows.map((row) => row.revisionId);
  const revisions = withLadders(rows, ids.length === 0 ? [] : await laddersOf(database, ids));
  const current = revisions.at(-1);
  return current && { current, revisions };
}

const ladderColumns = {
  visitRevisionId: ladder.visitRevisionId,
  position: ladder.position,
  limb: ladder.limb,
  side: ladder.side,
  zero: ladder.zero,
  direction: ladder.direction,
  unit: ladder.unit,
  intervalText: ladder.intervalText,
  rungs: ladder.rungs,
  landmarks: ladder.landmarks,
  floorToFold: ladder.floorToFold,
  zeroChoice: ladder.zeroChoice,
};

type LadderRow = KeptLadder & { readonly visitRevisionId: string; readonly position: number };
type RevisionRow = Omit<KeptVisit, 'ladders'> & { readonly revisionId: string };

async function laddersOf(database: Database, revisionIds: readonly string[]): Promise<readonly LadderRow[]> {
  return database
    .select(ladderColumns)
    .from(ladder)
    .where(inArray(ladder.visitRevisionId, [...revisionIds]));
}

/** Puts each visit together with its ladders, in the order in which they were taped. */
function withLadders(revisions: readonly RevisionRow[], ladders: readonly LadderRow[]): KeptVisit[] {
  const byRevision = groupedBy(ladders, ({ visitRevisionId }) => visitRevisionId);
  return revisions.map(({ revisionId, measures, ...kept }) => {
    const own = [...(byRevision.get(revisionId) ?? [])].sort((one, other) => one.position - other.position);
    return { ...kept, ...(measures ? { measures } : {}), ladders: own.map(({ visitRevisionId, position, ...taped }) => taped) };
  });
}

function byDayAndTime(one: KeptVisit, other: KeptVisit): number {
  return one.day.localeCompare(other.day) || (one.time ?? '').localeCompare(other.time ?? '') || one.at.getTime() - other.at.getTime();
}

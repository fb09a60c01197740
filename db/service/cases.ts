import { and, eq, gt, inArray, isNotNull, lte, sql } from 'drizzle-orm';
import type { CalendarDay } from '@/lib/units/calendar-day';
import { REVOKED } from '../patients/revoked';
import { garmentOrder, notedRevision, orderRevision, patient, piece, pieceRevision, visit } from '../schema/schema';
import type { Database } from '../sql/database';
import { daysApart } from '../sql/days-apart';
import type { OfClinic } from './of-clinic';

/** Revisions of the clinic's pieces up to the one that counts: none of a piece that was taken back with its import. */
const isOfPiece = (therapist: OfClinic, of?: Patients) =>
  and(
    eq(pieceRevision.pieceId, piece.id),
    isOfClinic(therapist, of),
    lte(pieceRevision.number, piece.revision),
    of && inArray(piece.patientId, [...of]),
  );

/** The clinic as a word that no index holds where patients are named: SQLite would else go through every piece of the clinic. */
const isOfClinic = ({ clinicId }: OfClinic, of?: Patients) => eq(of ? sql`${piece.clinicId} || ''` : sql`${piece.clinicId}`, clinicId);

/** Whose cases are read; everybody's where none are named. */
type Patients = readonly string[];

const formOf = sql<string | null>`${pieceRevision.garment} ->> 'form'`;

/**
 * Every fitting of the clinic's pieces: a day and outcome of one piece, with its `turn` among the fittings of that piece, from 1.
 *
 * A revision repeats the fit of the one before, so of each day and outcome the earliest revision stands for all.
 */
export function fittingsOf(database: Database, therapist: OfClinic, of?: Patients) {
  const fitDay = sql<CalendarDay>`${pieceRevision.fit} ->> 'day'`;
  const fitOutcome = sql<'keep' | 'alter' | 'remake'>`${pieceRevision.fit} ->> 'outcome'`;
  const noted = database
    .select({
      pieceId: pieceRevision.pieceId,
      patientId: piece.patientId,
      label: piece.label,
      number: pieceRevision.number,
      day: fitDay.as('fit_day'),
      outcome: fitOutcome.as('fit_outcome'),
      reason: sql<string | null>`${pieceRevision.fit} ->> 'reason'`.as('fit_reason'),
      form: formOf.as('fit_form'),
      place:
        sql<number>`row_number() over (partition by ${pieceRevision.pieceId}, ${fitDay}, ${fitOutcome} order by ${pieceRevision.number})`.as(
          'place',
        ),
    })
    .from(pieceRevision)
    .innerJoin(piece, isOfPiece(therapist, of))
    .where(isNotNull(pieceRevision.fit))
    .as('noted');
  return database
    .select({
      pieceId: noted.pieceId,
      patientId: noted.patientId,
      label: noted.label,
      number: noted.number,
      day: noted.day,
      month: sql<string>`substr(${noted.day}, 1, 7)`.as('fit_month'),
      outcome: noted.outcome,
      reason: noted.reason,
      form: noted.form,
      turn: sql<number>`row_number() over (partition by ${noted.pieceId} order by ${noted.day}, ${noted.number})`.as('turn'),
    })
    .from(noted)
    .where(and(eq(noted.place, 1), isNotNull(noted.day)))
    .as('fittings');
}

/** The first revision in which a piece had gone back to be altered or made again. */
function goneBack(database: Database, therapist: OfClinic, of?: Patients) {
  return database
    .select({ pieceId: pieceRevision.pieceId, since: sql<number>`min(${pieceRevision.number})`.as('since') })
    .from(pieceRevision)
    .innerJoin(piece, isOfPiece(therapist, of))
    .where(inArray(sql`${pieceRevision.fit} ->> 'outcome'`, ['alter', 'remake']))
    .groupBy(pieceRevision.pieceId)
    .as('gone_back');
}

/** The day the maker was to begin: the order's own, or that of the release of a piece that was held back until another was fitted. */
const ORDERED = sql<CalendarDay>`coalesce(case when ${pieceRevision.kept} -> 0 ->> 'as' = 'held back' then ${pieceRevision.kept} -> 1 ->> 'from' end, ${orderRevision.content} ->> 'ordered')`;

const orderOf = (therapist: OfClinic) => and(eq(garmentOrder.id, pieceRevision.orderId), eq(garmentOrder.clinicId, therapist.clinicId));
const revisionOfOrder = and(eq(orderRevision.orderId, garmentOrder.id), eq(orderRevision.number, garmentOrder.revision));

/** Every piece of a sent order that was kept at a fitting, as it stands now: its days, and whether it went back before. */
export function keptOf(database: Database, therapist: OfClinic, of?: Patients) {
  const back = goneBack(database, therapist, of);
  const cutFrom = sql<CalendarDay>`coalesce(${visit.day}, ${pieceRevision.cutFrom})`;
  const days = daysApart(ORDERED, pieceRevision.firstFit);
  return database
    .select({
      pieceId: piece.id,
      patientId: piece.patientId,
      label: piece.label,
      day: sql<CalendarDay>`${pieceRevision.firstFit}`.as('kept_day'),
      month: sql<string>`substr(${pieceRevision.firstFit}, 1, 7)`.as('kept_month'),
      days: sql<number>`${days}`.as('days'),
      wentBack: sql<number>`case when ${back.since} is null then 0 else 1 end`.as('went_back'),
      measuring: sql<number>`${daysApart(cutFrom, ORDERED)}`.as('measuring'),
      making: sql<number | null>`${daysApart(ORDERED, pieceRevision.delivered)}`.as('making'),
      waiting: sql<number | null>`${daysApart(pieceRevision.delivered, pieceRevision.firstFit)}`.as('waiting'),
    })
    .from(piece)
    .innerJoin(pieceRevision, and(isOfPiece(therapist, of), eq(pieceRevision.number, piece.revision)))
    .innerJoin(garmentOrder, orderOf(therapist))
    .innerJoin(orderRevision, revisionOfOrder)
    .leftJoin(visit, eq(visit.id, pieceRevision.cutFromVisitId))
    .leftJoin(back, eq(back.pieceId, piece.id))
    .where(and(isOfClinic(therapist, of), isNotNull(pieceRevision.firstFit), sql`${days} >= 0`))
    .as('kept');
}

/**
 * The first delivery of every piece of a sent order: the day that stood before the piece went back, or stands now if it never did.
 *
 * One revision of a piece says so, and only that one is read: the last before it went back.
 */
export function deliveredOf(database: Database, therapist: OfClinic, of?: Patients) {
  const back = goneBack(database, therapist, of);
  const days = daysApart(ORDERED, pieceRevision.delivered);
  const telling = sql`coalesce(${back.since} - 1, ${piece.revision})`;
  return database
    .select({
      pieceId: piece.id,
      patientId: piece.patientId,
      label: piece.label,
      day: sql<CalendarDay>`${pieceRevision.delivered}`.as('delivered_day'),
      month: sql<string>`substr(${pieceRevision.delivered}, 1, 7)`.as('delivered_month'),
      form: formOf.as('delivered_form'),
      days: sql<number>`${days}`.as('days'),
    })
    .from(piece)
    .leftJoin(back, eq(back.pieceId, piece.id))
    .innerJoin(pieceRevision, and(isOfPiece(therapist, of), eq(pieceRevision.number, telling)))
    .innerJoin(garmentOrder, orderOf(therapist))
    .innerJoin(orderRevision, revisionOfOrder)
    .where(and(isOfClinic(therapist, of), isNotNull(pieceRevision.delivered), sql`${days} >= 0`))
    .as('delivered');
}

/**
 * Every booked visit that was kept or missed, by its newest state: kept where something was measured on its day, whatever was noted.
 *
 * Cancelled ones, those ahead and those of which nobody said anything are left out, as is a patient taken back with an import.
 */
export function bookedOf(database: Database, therapist: OfClinic, of?: Patients) {
  const { patientId, kind, thing, number, day, content, clinicId } = notedRevision;
  const measured = sql`exists (select 1 from ${visit} where ${visit.patientId} = ${patientId} and ${visit.day} = ${day} and ${visit.revision} > ${REVOKED})`;
  const states = database
    .select({
      patientId,
      thing,
      day: sql<CalendarDay>`${day}`.as('booked_day'),
      state: sql<string | null>`${content} ->> 'state'`.as('state'),
      measured: sql<number>`case when ${measured} then 1 else 0 end`.as('measured'),
      place: sql<number>`row_number() over (partition by ${thing} order by ${number} desc)`.as('place'),
    })
    .from(notedRevision)
    .innerJoin(patient, and(eq(patient.id, patientId), gt(patient.revision, REVOKED)))
    .where(and(eq(clinicId, therapist.clinicId), eq(kind, 'booking'), of && inArray(patientId, [...of])))
    .as('states');
  const standing = sql<'kept' | 'missed'>`case when ${states.measured} = 1 then 'kept' else 'missed' end`;
  return database
    .select({
      patientId: states.patientId,
      bookingId: states.thing,
      day: states.day,
      month: sql<string>`substr(${states.day}, 1, 7)`.as('booked_month'),
      standing: standing.as('standing'),
    })
    .from(states)
    .where(and(eq(states.place, 1), sql`(${states.state} = 'missed' or (${states.state} = 'booked' and ${states.measured} = 1))`))
    .as('booked');
}

import { and, eq } from 'drizzle-orm';
import { endedBefore, phaseFaults } from '@/lib/course/phases';
import { couldBeOne, figuresKey } from '@/lib/exchange/same-visit';
import { OBSERVED_KINDS } from '@/lib/observations/catalogue';
import { observationFaults } from '@/lib/observations/observation-faults';
import type { FiledVisit, PatientFile } from '@/lib/record/patient-file';
import { factFaults } from '@/lib/record/work-facts';
import { addDays, type CalendarDay, showDay } from '@/lib/units/calendar-day';
import type { Statement } from '../audit/statement';
import { getDatabase } from '../client';
import { cautionSteps } from '../patients/cautions';
import { newCourse } from '../patients/course';
import { newEvent } from '../patients/events';
import { changesOf, invalidateWork, invalidateWorkFrom } from '../patients/invalidate-work';
import { newNoted } from '../patients/noted';
import { newOrder } from '../patients/orders';
import { newPatient } from '../patients/patients';
import { newPiece } from '../patients/pieces';
import { type KeptRecord, recordOf } from '../patients/records';
import { newVisit } from '../patients/visits';
import { patient } from '../schema/schema';
import type { AddedByImport } from '../schema/schema-imports';
import type { Therapist } from '../therapist';

/** What bringing a patient in comes to: the steps of its write with what they add, or why there is nothing to write. */
export type BroughtIn =
  | {
      readonly kind: 'new' | 'extended';
      readonly patientId: string;
      readonly steps: readonly Statement[];
      readonly added: AddedByImport;
      readonly words: string | null;
    }
  | { readonly kind: 'same'; readonly patientId: string }
  | { readonly kind: 'refused'; readonly words: string };

/**
 * How a patient of a file comes into the clinic: as a new one, or, when the reference is there, by the visits and pieces it lacks.
 *
 * A visit with the same figures is there already and is passed over; another visit of the same day and time contradicts, and the whole
 * patient is refused with the day. `origin` names the item of the import: each thing of it is written once.
 */
export async function bringIn(therapist: Therapist, file: PatientFile, origin: string, at: Date): Promise<BroughtIn> {
  const patientId = await patientOfReference(therapist, file.details.reference);
  if (!patientId) return addAll(therapist, file, origin, at);
  const changes = await changesOf(therapist, patientId);
  const known = await recordOf(therapist, patientId);
  return known ? extend(therapist, { known, changes }, file, origin, at) : addAll(therapist, file, origin, at);
}

async function patientOfReference(therapist: Therapist, reference: string): Promise<string | undefined> {
  const database = await getDatabase();
  const [found] = await database
    .select({ id: patient.id })
    .from(patient)
    .where(and(eq(patient.clinicId, therapist.clinicId), eq(patient.referenceKey, reference.toLowerCase())));
  return found?.id;
}

function addAll(therapist: Therapist, file: PatientFile, origin: string, at: Date): BroughtIn {
  const [fault] = phaseFaults(file.phases, file.details.born, new Set(file.visits.map(({ day }) => day)));
  if (fault) return refused(`${file.details.reference}, phase ${fault.phase.kind} from ${showDay(fault.phase.from)}: ${fault.reason}`);
  const today = at.toISOString().slice(0, 10) as CalendarDay;
  const [odd] = file.facts ? factFaults(file.facts, file.details.born, addDays(today, 1)) : [];
  if (odd) return refused(`${file.details.reference}, ${odd.field}: ${odd.reason}`);
  const { observations, wrong, leftOut } = observationsOf(file, addDays(today, 1));
  if (wrong) return refused(wrong);
  const { patientId, statements } = newPatient(therapist, { submissionId: `${origin}/patient`, details: file.details }, at);
  const visits = addVisits(therapist, patientId, file.visits, origin, at);
  const orders = file.orders.map((order, index) => {
    const cutFromVisitId = visits.idOf.get(order.cutFromVisitId) ?? '';
    const added = newOrder(therapist, { patientId, submissionId: `${origin}/order ${index}`, order: { ...order, cutFromVisitId } }, at);
    return { number: order.order, ...added };
  });
  const orderOf = new Map(orders.map(({ number, orderId }) => [number, orderId]));
  const pieces = addPieces(therapist, patientId, file.pieces, { visits: visits.idOf, orders: orderOf }, origin, at);
  const events = file.events.flatMap((event, index) =>
    newEvent(therapist, { patientId, submissionId: `${origin}/event ${index}`, event }, at),
  );
  const cautions = file.cautions.flatMap((answer) => {
    const given = { visitId: null, day: answer.day, answers: [{ ...answer, figures: answer.figures ?? {} }] };
    return cautionSteps(therapist, patientId, given, at);
  });
  return {
    kind: 'new',
    patientId,
    steps: [
      ...statements,
      ...visits.steps,
      ...orders.flatMap((order) => order.statements),
      ...pieces.steps,
      ...events,
      ...newCourse(therapist, { patientId, submissionId: `${origin}/course`, phases: file.phases }, at),
      ...cautions,
      ...newNoted(
        therapist,
        {
          patientId,
          origin,
          facts: file.facts ?? null,
          leaving: file.leaving ?? null,
          bookings: file.bookings ?? [],
          observations,
          replies: file.replies ?? [],
        },
        at,
      ),
      invalidateWork(therapist, patientId),
    ],
    added: { visits: visits.ids, pieces: pieces.ids, orders: orders.map(({ orderId }) => orderId) },
    words: leftOut,
  };
}

/**
 * Observations of a file that are brought in, the first of them that cannot be, and what is said of those left out.
 *
 * A kind that a clinic added itself goes out as its number alone. The same number is another thing in another clinic, so it stays out.
 */
function observationsOf({ details, observations: all = [] }: PatientFile, today: CalendarDay) {
  const kindOf = new Map(OBSERVED_KINDS.map((kind) => [kind.id, kind]));
  const observations = all.filter(({ kind }) => kindOf.has(kind));
  const [wrong] = observations.flatMap((one) =>
    observationFaults(kindOf.get(one.kind), one, details.born, today).map(
      ({ field, reason }) => `${details.reference}, ${kindOf.get(one.kind)?.label} of ${showDay(one.day)}, ${field}: ${reason}`,
    ),
  );
  const out = all.length - observations.length;
  const said = out === 1 ? 'One observation of a kind that is' : `${out} observations of kinds that are`;
  const leftOut =
    out === 0 ? null : `${details.reference}: ${said} a clinic’s own stayed out; the file does not say what the figures mean.`;
  return { observations, wrong, leftOut };
}

type AsRead = { readonly known: KeptRecord; readonly changes: number };

function extend(therapist: Therapist, { known, changes }: AsRead, file: PatientFile, origin: string, at: Date): BroughtIn {
  const { patientId } = known.head;
  if (known.born !== file.details.born || (file.details.sex !== 'X' && known.sex !== file.details.sex))
    return refused(`${known.reference} is there with another day of birth or sex. Nothing of it was brought in.`);
  const idOf = new Map<string, string>();
  const fresh: FiledVisit[] = [];
  for (const visit of file.visits) {
    const ended = endedBefore(known.phases, visit.day);
    const same = known.visits.find((one) => figuresKey(one) === figuresKey(visit));
    if (same) idOf.set(visit.id, same.visitId);
    else if (known.visits.some((one) => couldBeOne(one, visit)))
      return refused(`${known.reference} has another visit on ${showDay(visit.day)}, with other figures. Nothing of it was brought in.`);
    else if (ended) return refused(`${known.reference} has no visit on ${showDay(visit.day)}. ${ended} Nothing of it was brought in.`);
    else fresh.push(visit);
  }
  const labels = new Set(known.pieces.map(({ piece }) => piece));
  const lacking = file.pieces.filter(({ piece }) => !labels.has(piece));
  if (fresh.length === 0 && lacking.length === 0) return { kind: 'same', patientId };
  const visits = addVisits(therapist, patientId, fresh, origin, at);
  const pieces = addPieces(therapist, patientId, lacking, { visits: new Map([...idOf, ...visits.idOf]), orders: new Map() }, origin, at);
  const leftOut = file.orders.length + file.events.length + file.phases.length + file.cautions.length + notedIn(file);
  return {
    kind: 'extended',
    patientId,
    steps: [invalidateWorkFrom(therapist, patientId, changes), ...visits.steps, ...pieces.steps],
    added: { visits: visits.ids, pieces: pieces.ids, orders: [] },
    words:
      leftOut > 0
        ? 'Orders, events, phases, answers to cautions and what else is noted come in with new patients only; they were left out.'
        : null,
  };
}

function notedIn({ facts, leaving, bookings = [], observations = [], replies = [] }: PatientFile): number {
  return (facts ? 1 : 0) + (leaving ? 1 : 0) + bookings.length + observations.length + replies.length;
}

function refused(words: string): BroughtIn {
  return { kind: 'refused', words };
}

type Added = { readonly ids: readonly string[]; readonly steps: readonly Statement[] };

function addVisits(
  therapist: Therapist,
  patientId: string,
  visits: readonly FiledVisit[],
  origin: string,
  at: Date,
): Added & { readonly idOf: ReadonlyMap<string, string> } {
  const added = visits.map(({ id, ...visit }) => {
    const entry = { patientId, submissionId: `${origin}/visit ${id}`, visit };
    return { id, ...newVisit(therapist, entry, at) };
  });
  return {
    ids: added.map(({ visitId }) => visitId),
    idOf: new Map(added.map(({ id, visitId }) => [id, visitId])),
    steps: added.flatMap(({ statements }) => statements),
  };
}

function addPieces(
  therapist: Therapist,
  patientId: string,
  pieces: PatientFile['pieces'],
  idOf: { readonly visits: ReadonlyMap<string, string>; readonly orders: ReadonlyMap<number, string> },
  origin: string,
  at: Date,
): Added {
  const added = pieces.map(({ order, ...rest }) => {
    const cutFromVisitId = idOf.visits.get(rest.cutFromVisitId ?? '') ?? null;
    const piece = { ...rest, cutFromVisitId, orderId: (order !== null && idOf.orders.get(order)) || null };
    return newPiece(therapist, patientId, { submissionId: `${origin}/piece ${rest.piece}`, piece }, at);
  });
  return { ids: added.map(({ pieceId }) => pieceId), steps: added.flatMap(({ statements }) => statements) };
}

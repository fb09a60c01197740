import { and, eq, inArray } from 'drizzle-orm';
import type { Leaving } from '@/lib/course/leaving';
import type { Phase } from '@/lib/course/phases';
import type { KeptBooking } from '@/lib/diary/booking';
import type { KeptReply } from '@/lib/observations/family-reply';
import type { KeptObservation } from '@/lib/observations/observation';
import { groupedBy } from '@/lib/record/grouped-by';
import { measurerIdOf } from '@/lib/record/measurer';
import type { PatientRecord } from '@/lib/record/patient-record';
import type { WorkFacts } from '@/lib/record/work-facts';
import { getDatabase } from '../client';
import { patient, patientRevision } from '../schema/schema';
import type { Therapist } from '../therapist';
import { cautionsOfPatients, type KeptCaution } from './cautions';
import { coursesOfPatients } from './course';
import { eventsOfPatients, type KeptEvent } from './events';
import { type ClinicMeasurers, measurersOf } from './measurers';
import { NOTHING_NOTED, notedOfPatients } from './noted';
import { headColumns, isCurrent, type PatientHead } from './patients';
import { type KeptPiece, piecesOfPatients } from './read-pieces';
import { type KeptVisit, visitsOfPatients } from './read-visits';

/** A record as the rules see it, whose visits and pieces also carry their ids, revisions and signatures. */
export type KeptRecord = Omit<
  PatientRecord,
  'visits' | 'pieces' | 'events' | 'phases' | 'cautions' | 'facts' | 'bookings' | 'observations' | 'replies'
> & {
  readonly diagnosisGroup: string;
  readonly head: PatientHead;
  readonly visits: readonly KeptVisit[];
  readonly pieces: readonly KeptPiece[];
  readonly events: readonly KeptEvent[];
  readonly phases: readonly Phase[];
  /** The latest answer to each caution card. */
  readonly cautions: readonly KeptCaution[];
  /** Who the person is for the work; null while nothing is written down. */
  readonly facts: WorkFacts | null;
  readonly factsNumber: number;
  /** What was gone through before they left; null while nothing was. */
  readonly leaving: Leaving | null;
  readonly leavingNumber: number;
  readonly bookings: readonly (KeptBooking & { readonly number: number })[];
  /** Names of the people of the clinic who may measure now. */
  readonly colleagues: readonly string[];
  readonly observations: readonly (KeptObservation & { readonly number: number })[];
  readonly replies: readonly (KeptReply & { readonly number: number })[];
};

/** Everything the rules need of one patient; undefined when the clinic has none of that id. */
export async function recordOf(therapist: Therapist, patientId: string, measurers?: ClinicMeasurers): Promise<KeptRecord | undefined> {
  return (await recordsOf(therapist, [patientId], measurers))[0];
}

/** The same of many patients, in the order asked for, in ten queries however many there are. Others' patients are left out. */
export async function recordsOf(
  therapist: Therapist,
  patientIds: readonly string[],
  known?: ClinicMeasurers,
): Promise<readonly KeptRecord[]> {
  if (patientIds.length === 0) return [];
  const [heads, visits, pieces, events, courses, cautions, noted, measurers] = await Promise.all([
    headsOf(therapist, patientIds),
    visitsOfPatients(therapist, patientIds).then(byPatient),
    piecesOfPatients(therapist, patientIds).then(byPatient),
    eventsOfPatients(therapist, patientIds).then(byPatient),
    coursesOfPatients(therapist, patientIds),
    cautionsOfPatients(therapist, patientIds).then(byPatient),
    notedOfPatients(therapist, patientIds),
    known ?? measurersOf(therapist),
  ]);
  const headOf = new Map(heads.map((head) => [head.patientId, head]));
  return patientIds.flatMap((id) => {
    const head = headOf.get(id);
    if (!head) return [];
    const { reference, born, sex, affected, affectedParts, diagnosisGroup } = head;
    const kept = {
      visits: (visits.get(id) ?? []).map((one) => withMeasurer(one, measurerIdOf(one.measurer, measurers))),
      pieces: pieces.get(id) ?? [],
      events: events.get(id) ?? [],
      phases: courses.get(id)?.phases ?? [],
      cautions: cautions.get(id) ?? [],
      ...(noted.get(id) ?? NOTHING_NOTED),
      colleagues: measurers.colleagues,
    };
    return [{ reference, born, sex, affected, ...(affectedParts ? { affectedParts } : {}), diagnosisGroup, head, ...kept }];
  });
}

function withMeasurer(visit: KeptVisit, measurerId: string | undefined): KeptVisit {
  return measurerId ? { ...visit, measurerId } : visit;
}

async function headsOf(therapist: Therapist, patientIds: readonly string[]): Promise<readonly PatientHead[]> {
  const database = await getDatabase();
  return database
    .select(headColumns)
    .from(patient)
    .innerJoin(patientRevision, isCurrent)
    .where(and(eq(patient.clinicId, therapist.clinicId), inArray(patient.id, [...patientIds])));
}

/** Rows by their patient. */
function byPatient<T extends { readonly patientId: string }>(rows: readonly T[]): ReadonlyMap<string, readonly T[]> {
  return groupedBy(rows, ({ patientId }) => patientId);
}

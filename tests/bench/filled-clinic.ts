import { hashPassword } from 'better-auth/crypto';
import { todayIn } from '@/app/_auth/today';
import { sealPatients } from '@/db/audit/seal-contents';
import { closeDatabase, getDatabase } from '@/db/client';
import { openClinic } from '@/db/people/people';
import { ladder, patient, piece, pieceRevision, visit, visitRevision } from '@/db/schema/schema';
import { countUncounted } from '@/db/service/renew-parts';
import { runTransaction } from '@/db/sql/run-steps';
import { type Therapist, therapistWithId } from '@/db/therapist';
import type { PatientRecord } from '@/lib/record/patient-record';
import { addDays, type CalendarDay, dayNumber } from '@/lib/units/calendar-day';
import { bulkClinic } from '@/tests/bulk-clinic';
import { seeded } from '@/tests/cohort/random';
import { syntheticLimbs } from '@/tests/cohort/synthetic-limbs';
import { madeUpRecord, pieceOf } from './made-up-rows';

const CLINIC = { name: 'Harbour Lane', subtitle: 'garment clinic', lengthUnit: 'cm', massUnit: 'kg', timeZone: 'UTC' } as const;
export const LEAD = { name: 'R. Adeyemi', role: 'lead', email: 'bench@harbour.example' } as const;
export const PASSWORD = 'taped twice on a tuesday';

/** Patients whose figures differ; the others are taped like one of them. */
const DIFFERENT = 40;
const AT_ONCE = 10;
/** Visits of the one patient whose page is measured. */
export const LONG_RECORD = 40;

/** A clinic that was filled: who leads it, its day, its patients in the order of their names, and the one with a long record. */
export type FilledClinic = {
  readonly lead: Therapist;
  readonly today: CalendarDay;
  readonly patientIds: readonly string[];
  readonly longRecordId: string;
};

/** Opens another clinic in the same database. */
export async function openAnother(name: string, email: string): Promise<Therapist> {
  const opened = await openClinic({ ...CLINIC, name }, { ...LEAD, email, passwordHash: await hashPassword(PASSWORD) });
  const lead = await therapistWithId('id' in opened ? opened.id : '');
  if (!lead) throw new Error('no lead was added');
  return lead;
}

/** Fills the database of the environment: this many patients with stored lines, this many visits each, and one patient with forty. */
export async function filledClinic(patients: number, visits: number): Promise<FilledClinic> {
  const lead = await openAnother(CLINIC.name, LEAD.email);
  const today = todayIn(CLINIC.timeZone);
  await bulkClinic(lead, patients, today);
  const database = await getDatabase();
  const rows = await database.select({ id: patient.id }).from(patient).orderBy(patient.referenceKey);
  const patientIds = rows.map(({ id }) => id);
  const random = seeded(7);
  const shapes = syntheticLimbs('leg');
  const records = (of: number, howMany: number) =>
    Array.from({ length: howMany }, (_, at) => madeUpRecord(at % 2 === 0 ? 'still' : 'child', random.pick(shapes), of, random));
  if (visits > 0) {
    const different = records(visits, DIFFERENT);
    for (let from = 1; from < patients; from += AT_ONCE) {
      const some = patientIds.slice(from, from + AT_ONCE);
      await addVisits(
        lead,
        today,
        some.map((id, index) => [id, different[(from + index) % DIFFERENT]] as const),
      );
    }
  }
  const longRecordId = patientIds[0] ?? '';
  await addVisits(lead, today, [[longRecordId, records(LONG_RECORD, 1)[0]]]);
  await runTransaction(await getDatabase(), (tx) => sealPatients(tx, lead.clinicId, new Date()));
  await countUncounted(lead);
  await closeDatabase();
  return { lead, today, patientIds, longRecordId };
}

/** Writes visits, ladders and a piece as `db/patients/visits` and `db/patients/pieces` would, without asking or noting anything. The last visit is a month old. */
async function addVisits(
  lead: Therapist,
  today: CalendarDay,
  of: readonly (readonly [string, PatientRecord | undefined])[],
): Promise<void> {
  const database = await getDatabase();
  const { clinicId } = lead;
  const signed = () => ({ author: lead.id, at: new Date(), reason: null, submissionId: crypto.randomUUID() });
  const rows = of.flatMap(([patientId, record]) => {
    const last = record?.visits.at(-1)?.day;
    const back = last ? dayNumber(today) - 30 - dayNumber(last) : 0;
    return (record?.visits ?? []).map((one) => {
      const { ladders, ...measured } = { ...one, day: addDays(one.day, back) };
      const head = { id: crypto.randomUUID(), clinicId, patientId, day: measured.day, revision: 1 };
      const revision = { ...measured, ...signed(), id: crypto.randomUUID(), clinicId, visitId: head.id, number: 1 };
      const taped = ladders.map((each, position) => ({
        ...each,
        id: crypto.randomUUID(),
        visitRevisionId: revision.id,
        position,
        intervalText: null,
      }));
      return { head, revision, taped };
    });
  });
  const pieces = of.map(([patientId]) => {
    const { piece: label, ...content } = pieceOf(dayNumber(today) - 90);
    const head = { id: crypto.randomUUID(), clinicId, patientId, label, revision: 1 };
    const revision = { ...content, ...signed(), id: crypto.randomUUID(), clinicId, pieceId: head.id, number: 1, label };
    return { head, revision };
  });
  await database.insert(visit).values(rows.map((row) => row.head));
  await database.insert(visitRevision).values(rows.map((row) => row.revision));
  await database.insert(ladder).values(rows.flatMap((row) => row.taped));
  await database.insert(piece).values(pieces.map((row) => row.head));
  await database.insert(pieceRevision).values(pieces.map((row) => row.revision));
}

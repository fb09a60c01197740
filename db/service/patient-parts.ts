import { and, eq, gt, inArray, type SQLWrapper, sql } from 'drizzle-orm';
import { NO_CASES, type PatientCases, partsOfPatient, type ServicePart } from '@/lib/service/service-parts';
import { REVOKED } from '../patients/revoked';
import { answerOutcome, patient, serviceCase } from '../schema/schema';
import type { Database } from '../sql/database';
import { OF_PATIENT } from './answer-counts';
import { answeredOf } from './answered';
import { bookedOf, deliveredOf, fittingsOf, keptOf } from './cases';
import type { OfClinic } from './of-clinic';

/** What these patients add to the figures of the service, counted anew from the record; a patient with no case has an empty list. Seven queries, whatever their number. */
export async function partsOf(
  database: Database,
  therapist: OfClinic,
  patientIds: readonly string[],
): Promise<ReadonlyMap<string, readonly ServicePart[]>> {
  // As a word that no index holds: SQLite would else go through every row of the clinic.
  const isOf = (clinicId: SQLWrapper) => eq(sql`${clinicId} || ''`, therapist.clinicId);
  const fittings = byPatient(await database.select().from(fittingsOf(database, therapist, patientIds)));
  const kept = byPatient(await database.select().from(keptOf(database, therapist, patientIds)));
  const delivered = byPatient(await database.select().from(deliveredOf(database, therapist, patientIds)));
  const booked = byPatient(await database.select().from(bookedOf(database, therapist, patientIds)));
  const answered = byPatient(await database.select().from(answeredOf(database, therapist, undefined, patientIds)));
  const outcomes = byPatient(
    (
      await database
        .select({ outcome: answerOutcome })
        .from(answerOutcome)
        .innerJoin(patient, OF_PATIENT)
        .where(and(isOf(answerOutcome.clinicId), inArray(answerOutcome.patientId, [...patientIds])))
    ).map(({ outcome }) => outcome),
  );
  const care = byPatient(
    (
      await database
        .select({ case: serviceCase })
        .from(serviceCase)
        .innerJoin(patient, and(eq(patient.id, serviceCase.patientId), gt(patient.revision, REVOKED)))
        .where(and(isOf(serviceCase.clinicId), inArray(serviceCase.patientId, [...patientIds])))
    ).map((row) => row.case),
  );
  const number = (value: number | null) => (value === null ? null : Number(value));
  return new Map(
    patientIds.map((patientId) => {
      const cases: PatientCases = {
        ...NO_CASES,
        fittings: (fittings.get(patientId) ?? []).map(({ turn, ...one }) => ({ ...one, isFirst: Number(turn) === 1 })),
        kept: (kept.get(patientId) ?? []).map(({ month, wentBack, days, measuring, making, waiting }) => ({
          ...{ month, wentBack: Number(wentBack) === 1, days: Number(days) },
          ...{ measuring: number(measuring), making: number(making), waiting: number(waiting) },
        })),
        delivered: (delivered.get(patientId) ?? []).map(({ month, form, days }) => ({ month, form, days: Number(days) })),
        booked: booked.get(patientId) ?? [],
        answers: (answered.get(patientId) ?? []).map(({ at, rule, answer }) => ({ month: at.toISOString().slice(0, 7), rule, answer })),
        outcomes: outcomes.get(patientId) ?? [],
        care: care.get(patientId) ?? [],
      };
      return [patientId, partsOfPatient(cases)] as const;
    }),
  );
}

function byPatient<T extends { readonly patientId: string }>(rows: readonly T[]): ReadonlyMap<string, readonly T[]> {
  const found = new Map<string, T[]>();
  for (const row of rows) {
    const own = found.get(row.patientId);
    if (own) own.push(row);
    else found.set(row.patientId, [row]);
  }
  return found;
}

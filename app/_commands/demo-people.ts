import type { Clinic } from '@/db/clinic';
import type { PatientDetails } from '@/db/patients';
import type { TypedPiece } from '@/db/pieces';
import type { TypedVisit } from '@/db/visits';

/** A made-up patient: visits by day, and pieces each cut from the visit whose day is `cutFrom`. */
export type DemoPatient = {
  readonly details: PatientDetails;
  readonly visits: readonly TypedVisit[];
  readonly pieces: readonly Omit<TypedPiece, 'cutFromVisitId'>[];
};

/** A made-up clinic with its patients. */
export type DemoClinic = { readonly clinic: Omit<Clinic, 'id'>; readonly patients: readonly DemoPatient[] };

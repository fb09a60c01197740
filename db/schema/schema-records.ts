import type { GarmentSpec } from '@/lib/garment-forms/garment-catalogue';
import type { KeptDoubt, LandmarkReading, Rung, ZeroChoice } from '@/lib/ladder/ladder';
import type { LimbKind, Side } from '@/lib/ladder/limb';
import type {
  Cover,
  LimbSide,
  NamedMeasure,
  Occasion,
  PartOfSide,
  ReductionConvention,
  Sex,
  SingleReading,
  WornPlace,
} from '@/lib/record/patient-record';
import type { Alteration, FirstFit, KeptAs, RetiredAs, WearIn } from '@/lib/record/piece-life';
import type { CalendarDay } from '@/lib/units/calendar-day';
import type { LengthUnit, TypedLength } from '@/lib/units/length';
import type { TypedMass } from '@/lib/units/mass';
import { columns } from '../sql/columns';
import { ofClinic } from './schema-clinic';

const { table, id, text, oneOf, wholeNumber, decimal, json, moment, index, uniqueIndex } = columns;

/** Whose record a row belongs to. */
export const ofPatient = () =>
  text()
    .notNull()
    .references(() => patient.id);

/** Who wrote a revision, when, why, and the form it came from: one form makes one row. */
export const signature = () => ({ author: text().notNull(), at: moment().notNull(), reason: text(), submissionId: text().notNull() });

/** A patient's head: which revision counts, and what the list is searched by. */
export const patient = table(
  'patient',
  { id: id(), clinicId: ofClinic(), revision: wholeNumber().notNull(), referenceKey: text().notNull(), searchText: text().notNull() },
  (row) => [
    uniqueIndex('patient_reference').on(row.clinicId, row.referenceKey),
    index('patient_search').on(row.clinicId, row.searchText, row.referenceKey, row.id),
  ],
);

/** What was known of a patient, from one moment to the next correction. Never changed. */
export const patientRevision = table(
  'patient_revision',
  {
    id: id(),
    clinicId: ofClinic(),
    patientId: ofPatient(),
    number: wholeNumber().notNull(),
    reference: text().notNull(),
    name: text(),
    born: text().$type<CalendarDay>().notNull(),
    sex: text().$type<Sex>().notNull(),
    diagnosisGroup: text().notNull(),
    affected: json<readonly LimbSide[]>().notNull(),
    affectedParts: json<readonly PartOfSide[]>(),
    language: text().notNull(),
    note: text(),
    ...signature(),
  },
  (row) => [
    uniqueIndex('patient_revision_number').on(row.patientId, row.number),
    uniqueIndex('patient_revision_submission').on(row.clinicId, row.submissionId),
  ],
);

/** A visit's head: whose, on which day, and which revision counts. */
export const visit = table(
  'visit',
  { id: id(), clinicId: ofClinic(), patientId: ofPatient(), day: text().$type<CalendarDay>().notNull(), revision: wholeNumber().notNull() },
  (row) => [index('visit_patient_day').on(row.patientId, row.day)],
);

/** What was measured at a visit, beside its ladders. Never changed. */
export const visitRevision = table(
  'visit_revision',
  {
    id: id(),
    clinicId: ofClinic(),
    visitId: text()
      .notNull()
      .references(() => visit.id),
    number: wholeNumber().notNull(),
    day: text().$type<CalendarDay>().notNull(),
    time: text(),
    posture: text(),
    measurer: text(),
    height: json<TypedLength>(),
    weight: json<TypedMass>(),
    note: text(),
    readings: json<readonly SingleReading[]>(),
    measures: json<readonly NamedMeasure[]>(),
    keptBody: json<readonly KeptDoubt[]>(),
    occasion: text().$type<Occasion>(),
    ...signature(),
  },
  (row) => [
    uniqueIndex('visit_revision_number').on(row.visitId, row.number),
    uniqueIndex('visit_revision_submission').on(row.clinicId, row.submissionId),
  ],
);

/** One limb's girths of one revision: a single row, rungs as they were typed beside the exact lengths. Never changed. */
export const ladder = table(
  'ladder',
  {
    id: id(),
    visitRevisionId: text()
      .notNull()
      .references(() => visitRevision.id),
    position: wholeNumber().notNull(),
    limb: text().$type<LimbKind>().notNull(),
    side: text().$type<Side>().notNull(),
    zero: text().notNull(),
    direction: oneOf('up', 'down').notNull(),
    unit: text().$type<LengthUnit>().notNull(),
    intervalText: text(),
    rungs: json<readonly Rung[]>().notNull(),
    landmarks: json<readonly LandmarkReading[]>().notNull(),
    floorToFold: json<TypedLength>(),
    zeroChoice: json<ZeroChoice>(),
  },
  (row) => [uniqueIndex('ladder_place').on(row.visitRevisionId, row.position)],
);

/** Second tapings of one ladder of one revision: how many pairs and the sum of their squared differences, mm². Never changed. */
export const repeatTaping = table(
  'repeat_taping',
  {
    id: id(),
    clinicId: ofClinic(),
    visitId: text()
      .notNull()
      .references(() => visit.id),
    revision: wholeNumber().notNull(),
    day: text().$type<CalendarDay>().notNull(),
    pairs: wholeNumber().notNull(),
    squaresMm2: decimal().notNull(),
  },
  (row) => [index('repeat_taping_day').on(row.clinicId, row.day), index('repeat_taping_visit').on(row.visitId)],
);

/** A piece's head: whose, what it is called, and which revision counts. */
export const piece = table(
  'piece',
  { id: id(), clinicId: ofClinic(), patientId: ofPatient(), label: text().notNull(), revision: wholeNumber().notNull() },
  (row) => [uniqueIndex('piece_label').on(row.patientId, row.label), index('piece_clinic').on(row.clinicId)],
);

/** What was known of a piece from one moment to the next. Never changed. */
export const pieceRevision = table(
  'piece_revision',
  {
    id: id(),
    clinicId: ofClinic(),
    pieceId: text()
      .notNull()
      .references(() => piece.id),
    number: wholeNumber().notNull(),
    label: text().notNull(),
    limb: text().$type<WornPlace['limb']>().notNull(),
    side: text().$type<WornPlace['side']>().notNull(),
    covers: json<Cover>().notNull(),
    cutFromVisitId: text().references(() => visit.id),
    cutFrom: text().$type<CalendarDay>().notNull(),
    reductionPct: decimal().notNull(),
    convention: text().$type<ReductionConvention>().notNull(),
    allowance: json<TypedLength>(),
    firstFit: text().$type<CalendarDay>(),
    firstWorn: text().$type<CalendarDay>(),
    lifeDays: wholeNumber().notNull(),
    leadDays: wholeNumber().notNull(),
    retired: text().$type<CalendarDay>(),
    retiredReason: text(),
    orderId: text(),
    garment: json<GarmentSpec>(),
    expected: text().$type<CalendarDay>(),
    delivered: text().$type<CalendarDay>(),
    fit: json<FirstFit>(),
    wearIn: json<WearIn>(),
    kept: json<readonly KeptAs[]>(),
    alterations: json<readonly Alteration[]>(),
    retiredAs: text().$type<RetiredAs>(),
    ...signature(),
  },
  (row) => [
    uniqueIndex('piece_revision_number').on(row.pieceId, row.number),
    uniqueIndex('piece_revision_submission').on(row.clinicId, row.submissionId),
  ],
);

/** A form not finished yet: one for each person, patient and kind. The only content that is overwritten. */
export const draft = table(
  'draft',
  {
    id: id(),
    clinicId: ofClinic(),
    patientId: ofPatient(),
    author: text().notNull(),
    kind: text().notNull(),
    content: json<unknown>().notNull(),
    version: wholeNumber().notNull(),
    updatedAt: moment().notNull(),
  },
  (row) => [uniqueIndex('draft_of').on(row.clinicId, row.patientId, row.author, row.kind)],
);

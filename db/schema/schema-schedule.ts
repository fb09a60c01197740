import type { AnswerOutcome } from '@/lib/analysis/answer-outcomes';
import type { GivenOutlook, GivenVerdict } from '@/lib/analysis/given-answers';
import { ANSWER_KINDS } from '@/lib/prompts/decide-prompts';
import type { LimbSide, WornPlace } from '@/lib/record/patient-record';
import type { CalendarDay } from '@/lib/units/calendar-day';
import { columns } from '../sql/columns';
import { ofClinic } from './schema-clinic';
import { ofPatient, patient, visit } from './schema-records';

const { table, id, text, oneOf, wholeNumber, decimal, yesNo, json, moment, index, uniqueIndex } = columns;

/** One stored line of the worklist, computed from the record; rewritten whenever its patient is renewed. */
export const workLine = table(
  'work_line',
  {
    id: id(),
    clinicId: ofClinic(),
    patientId: ofPatient(),
    key: text().notNull(),
    kind: text().notNull(),
    due: text().$type<CalendarDay>().notNull(),
    /** Of a first line the earliest day on which anything of its patient is due, of any other its own: by it the list of patients is ordered and counted. */
    soonest: text().$type<CalendarDay>().notNull(),
    title: text().notNull(),
    reason: text().notNull(),
    limb: json<WornPlace>(),
    /** Cause and inputs of the prompt behind the line; null for a date of the schedule. */
    prompt: json<{ readonly cause: string; readonly inputs: string }>(),
    /** The most pressing line of its patient, and how many more stand behind it. */
    first: yesNo().notNull(),
    behind: wholeNumber().notNull(),
    outline: json<unknown>(),
  },
  (row) => [
    uniqueIndex('work_line_key').on(row.patientId, row.key),
    index('work_line_first').on(row.clinicId, row.first, row.soonest, row.id),
    index('work_line_kind').on(row.clinicId, row.kind, row.due, row.id),
  ],
);

/**
 * For which day a patient's lines hold. A write to the record counts `changes` up and clears the day, so that the lines are renewed;
 * each renewal counts `renewals` up, so that of two that ran at once one is undone.
 */
export const workState = table(
  'work_state',
  {
    patientId: text()
      .primaryKey()
      .references(() => patient.id),
    clinicId: ofClinic(),
    changes: wholeNumber().notNull(),
    renewals: wholeNumber().notNull().default(0),
    renewedFor: text().$type<CalendarDay>(),
    /** Rules and limits the lines were made with. */
    basis: text(),
    claimedUntil: moment(),
    /** Whether the patient's part of the service counts is that of the record; a write, or a renewal that changed what came of it, clears it. */
    counted: yesNo().notNull().default(false),
  },
  (row) => [
    index('work_state_due').on(row.clinicId, row.renewedFor),
    index('work_state_basis').on(row.clinicId, row.basis),
    index('work_state_counted').on(row.clinicId, row.counted),
  ],
);

/**
 * How many lines of a kind are due on a day, kept in step with the lines: counts cost the days, not the clinic. Beside the kinds of work
 * `patient` counts first lines, and `known`, on no day, the patients that were ever renewed.
 */
export const workCount = table(
  'work_count',
  { id: id(), clinicId: ofClinic(), kind: text().notNull(), due: text().$type<CalendarDay>().notNull(), lines: wholeNumber().notNull() },
  (row) => [uniqueIndex('work_count_day').on(row.clinicId, row.kind, row.due)],
);

/** A date of a patient's schedule as last computed or moved: what a calendar entry is made from. */
export const dueDate = table(
  'due_date',
  {
    id: id(),
    clinicId: ofClinic(),
    patientId: ofPatient(),
    key: text().notNull(),
    kind: text().notNull(),
    day: text().$type<CalendarDay>().notNull(),
    /** Clock time `HH:MM` of a booked visit. */
    time: text(),
    computed: text().$type<CalendarDay>().notNull(),
    state: oneOf('open', 'done', 'cancelled').notNull(),
    /** Rises with every move or cancellation. */
    sequence: wholeNumber().notNull(),
    changedAt: moment().notNull(),
  },
  (row) => [uniqueIndex('due_date_key').on(row.patientId, row.key), index('due_date_day').on(row.clinicId, row.state, row.day)],
);

/** A date moved by hand, with the day it was computed for and the reason. Never changed; the latest of a key counts while `computed` still holds. */
export const movedDate = table(
  'moved_date',
  {
    id: id(),
    clinicId: ofClinic(),
    patientId: ofPatient(),
    key: text().notNull(),
    computed: text().$type<CalendarDay>().notNull(),
    day: text().$type<CalendarDay>().notNull(),
    reason: text().notNull(),
    by: text().notNull(),
    at: moment().notNull(),
  },
  (row) => [index('moved_date_latest').on(row.patientId, row.key, row.at)],
);

/** Which coverage rule of the clinic holds for a patient, from when. Never changed; the latest counts. */
export const patientCoverage = table(
  'patient_coverage',
  {
    id: id(),
    clinicId: ofClinic(),
    patientId: ofPatient(),
    /** Id of a rule in the clinic's settings; null for none. */
    rule: text(),
    from: text().$type<CalendarDay>().notNull(),
    note: text(),
    by: text().notNull(),
    at: moment().notNull(),
  },
  (row) => [index('patient_coverage_latest').on(row.patientId, row.at)],
);

/** A calendar address that may be read without signing in: only the hash of its token is kept. */
export const calendarFeed = table(
  'calendar_feed',
  {
    id: id(),
    clinicId: ofClinic(),
    /** One patient's dates, or the whole clinic's when null. */
    patientId: text().references(() => patient.id),
    tokenHash: text().notNull(),
    by: text().notNull(),
    at: moment().notNull(),
    withdrawnAt: moment(),
    withdrawnBy: text(),
    lastReadAt: moment(),
  },
  (row) => [uniqueIndex('calendar_feed_token').on(row.tokenHash), index('calendar_feed_clinic').on(row.clinicId)],
);

/** What a therapist answered to a prompt, with the figures the prompt stood on. Never changed; the latest of a key counts. */
export const promptAnswer = table(
  'prompt_answer',
  {
    id: id(),
    clinicId: ofClinic(),
    patientId: ofPatient(),
    promptKey: text().notNull(),
    rule: text().notNull(),
    ruleVersion: text().notNull(),
    inputsHash: text().notNull(),
    inputs: json<unknown>().notNull(),
    answer: oneOf(...ANSWER_KINDS).notNull(),
    until: text().$type<CalendarDay>(),
    reason: text(),
    by: text().notNull(),
    at: moment().notNull(),
  },
  (row) => [index('prompt_answer_latest').on(row.patientId, row.promptKey, row.at)],
);

/**
 * What the engine said of a visit when it was first worked out, by which engine and with which rules and limits. Never changed: what later
 * visits or other rules say is worked out beside it. A corrected visit gets another row.
 */
export const givenAnswer = table(
  'given_answer',
  {
    id: id(),
    clinicId: ofClinic(),
    patientId: ofPatient(),
    visitId: text()
      .notNull()
      .references(() => visit.id),
    revision: wholeNumber().notNull(),
    givenOn: text().$type<CalendarDay>().notNull(),
    engine: wholeNumber().notNull(),
    basis: text().notNull(),
    verdicts: json<readonly GivenVerdict[]>().notNull(),
    outlooks: json<readonly GivenOutlook[]>().notNull(),
  },
  (row) => [uniqueIndex('given_answer_visit').on(row.visitId, row.revision), index('given_answer_patient').on(row.patientId)],
);

/**
 * What came of one given answer (`AnswerOutcome`), by everything measured since; made anew whenever its patient is renewed. Which columns hold
 * something goes by the kind.
 */
export const answerOutcome = table(
  'answer_outcome',
  {
    id: id(),
    clinicId: ofClinic(),
    patientId: ofPatient(),
    givenId: text()
      .notNull()
      .references(() => givenAnswer.id),
    kind: oneOf('verdict', 'outlook').notNull(),
    /** Day of the visit that the answer was given of. */
    day: text().$type<CalendarDay>().notNull(),
    limb: text().$type<LimbSide['limb']>().notNull(),
    side: text().$type<LimbSide['side']>().notNull(),
    came: text().$type<AnswerOutcome['came']>().notNull(),
    against: oneOf('baseline', 'last'),
    word: text(),
    probability: decimal(),
    /** Tenth of the probability, from 0. */
    tenth: wholeNumber(),
    changed: yesNo(),
    /** Hundredths of an SD. */
    miss: wholeNumber(),
    piece: text(),
    earlyKept: yesNo(),
    daysOff: wholeNumber(),
  },
  (row) => [index('answer_outcome_clinic').on(row.clinicId, row.kind, row.day), index('answer_outcome_patient').on(row.patientId)],
);

/** What a patient's record adds to the figures of the service (`ServiceCase`), worked out by the engine; made anew whenever its patient is renewed. */
export const serviceCase = table(
  'service_case',
  {
    id: id(),
    clinicId: ofClinic(),
    patientId: ofPatient(),
    kind: oneOf('without', 'excess').notNull(),
    day: text().$type<CalendarDay>().notNull(),
    limb: text().$type<LimbSide['limb']>().notNull(),
    side: text().$type<LimbSide['side']>().notNull(),
    whole: wholeNumber(),
    some: wholeNumber(),
    phase: text(),
    /** Tenths of a percentage point. */
    lost: wholeNumber(),
    kept: yesNo(),
  },
  (row) => [index('service_case_clinic').on(row.clinicId, row.kind, row.day), index('service_case_patient').on(row.patientId)],
);

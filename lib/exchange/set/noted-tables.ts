import { z } from 'zod';
import { LEAVING } from '../../course/leaving-schema';
import { BOOKING_STATES, type Booking, isClockTime, LONGEST_BOOKING } from '../../diary/booking';
import type { Observation } from '../../observations/observation';
import { OBSERVATION } from '../../observations/observation-schema';
import type { PatientFile } from '../../record/patient-file';
import { DOMINANT, factFaults, type WorkFacts } from '../../record/work-facts';
import { WORK_FACTS } from '../../record/work-facts-schema';
import { type CalendarDay, calendarDay } from '../../units/calendar-day';
import type { CsvRow } from '../csv-table';
import { dayCell, filledCell, oneOfCell, refuseCell } from '../read-cells';
import { cellOrNull, dayOrNull, jsonCell, numberCell } from './read-set-cells';
import { type SetTable, SUBJECT_ID } from './set-table';

/** No day of a file is later than this; what has not come yet is asked about where it is written. */
const LAST_DAY = calendarDay('9999-12-31');

/** Table `for_the_work`: who the person is for the work. */
export const FOR_THE_WORK: SetTable = {
  name: 'for_the_work',
  says: 'One row a patient of whom something is written down for the work: referral, prescriber, cause, contacts.',
  columns: [
    SUBJECT_ID,
    { name: 'referral_day', kind: 'day', says: 'Day of the referral.' },
    { name: 'referral_until', kind: 'day', says: 'Last day of the referral.' },
    { name: 'referral_for', kind: 'free-text', says: 'What was ordered or asked for.' },
    { name: 'prescriber', kind: 'identity', says: 'Who prescribes.' },
    { name: 'prescriber_reach', kind: 'identity', says: 'How the prescriber is reached.' },
    { name: 'stage', kind: 'free-text', says: 'Stage, in the clinic’s words.' },
    { name: 'dominant_hand', kind: 'word', says: 'left, right or both.' },
    { name: 'cause', kind: 'free-text', says: 'What happened.' },
    { name: 'injured', kind: 'day', says: 'Day of the injury or the beginning.' },
    { name: 'healed', kind: 'day', says: 'Day the wounds were closed.' },
    { name: 'grafted', kind: 'json', says: 'Days of skin grafts.' },
    { name: 'burnt_pct', kind: 'decimal', unit: '%', says: 'Burnt area, per cent of the body’s surface.' },
    { name: 'interpreter', kind: 'word', says: 'yes where an interpreter is needed.' },
    { name: 'contacts', kind: 'json', says: 'Whom to call, first to last: name, relation, phone.' },
    { name: 'consents', kind: 'json', says: 'Consents: to what, and the day.' },
  ],
  rows: ({ subjectId, file: { facts } }) =>
    facts
      ? [
          {
            subject_id: subjectId,
            referral_day: facts.referralDay ?? '',
            referral_until: facts.referralUntil ?? '',
            referral_for: facts.referralFor ?? '',
            prescriber: facts.prescriber ?? '',
            prescriber_reach: facts.prescriberReach ?? '',
            stage: facts.stage ?? '',
            dominant_hand: facts.dominantHand ?? '',
            cause: facts.cause ?? '',
            injured: facts.injured ?? '',
            healed: facts.healed ?? '',
            grafted: JSON.stringify(facts.grafted),
            burnt_pct: facts.burntPct === null ? '' : String(facts.burntPct),
            interpreter: facts.interpreter ? 'yes' : '',
            contacts: JSON.stringify(facts.contacts),
            consents: JSON.stringify(facts.consents),
          },
        ]
      : [],
};

const LIST = z.array(z.unknown());

/** A subject’s facts for the work. Refuses a second row, and what contradicts (`factFaults`). */
export function readForTheWork(rows: readonly CsvRow[], born: CalendarDay): Pick<PatientFile, 'facts'> {
  const [row, second] = rows;
  if (second) refuseCell(second, 'subject_id', 'This subject has a row already.');
  if (!row) return {};
  const facts: Readonly<Record<keyof WorkFacts, unknown>> = {
    referralDay: dayOrNull(row, 'referral_day'),
    referralUntil: dayOrNull(row, 'referral_until'),
    referralFor: cellOrNull(row, 'referral_for'),
    prescriber: cellOrNull(row, 'prescriber'),
    prescriberReach: cellOrNull(row, 'prescriber_reach'),
    stage: cellOrNull(row, 'stage'),
    dominantHand: row.cell('dominant_hand') === '' ? null : oneOfCell(row, 'dominant_hand', DOMINANT),
    cause: cellOrNull(row, 'cause'),
    injured: dayOrNull(row, 'injured'),
    healed: dayOrNull(row, 'healed'),
    grafted: jsonCell(row, 'grafted', LIST),
    burntPct: row.cell('burnt_pct') === '' ? null : numberCell(row, 'burnt_pct'),
    interpreter: row.cell('interpreter') === 'yes',
    contacts: jsonCell(row, 'contacts', LIST),
    consents: jsonCell(row, 'consents', LIST),
  };
  const read = WORK_FACTS.safeParse(facts);
  if (!read.success) {
    const issue = read.error.issues[0];
    const field = String(issue?.path[0] ?? 'referralDay');
    return refuseCell(row, columnOf(field), `${issue?.message ?? 'Not as expected'}.`);
  }
  const [fault] = factFaults(read.data, born, LAST_DAY);
  if (fault) refuseCell(row, columnOf(fault.field), fault.reason);
  return { facts: read.data };
}

/** Example: `burntPct` is `burnt_pct`; `grafted0` and `consentDay1` are the lists they stand in. */
function columnOf(field: string): string {
  if (field.startsWith('consentDay')) return 'consents';
  return field.replace(/\d+$/, '').replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);
}

/** Table `booking`: booked visits and what became of them. */
export const BOOKED: SetTable = {
  name: 'booking',
  says: 'One row a booked visit, as it stands after all changes. Kept is one on whose day something was measured.',
  columns: [
    SUBJECT_ID,
    { name: 'day', kind: 'day', says: 'Day it is booked for.' },
    { name: 'time', kind: 'word', tellsWhen: true, says: 'Clock time HH:MM.' },
    { name: 'what', kind: 'free-text', says: 'What for.' },
    { name: 'state', kind: 'word', says: 'booked, missed, cancelled by the clinic or cancelled by the person.' },
  ],
  rows: ({ subjectId, file: { bookings = [] } }) =>
    bookings.map(({ day, time, what, state }) => ({ subject_id: subjectId, day, time: time ?? '', what: what ?? '', state })),
};

/** A subject’s bookings; left out where there is none. */
export function readBooked(rows: readonly CsvRow[]): Pick<PatientFile, 'bookings'> {
  if (rows.length === 0) return {};
  const bookings = rows.map((row): Booking => {
    const time = cellOrNull(row, 'time');
    if (time !== null && !isClockTime(time)) refuseCell(row, 'time', `“${time}” is not a clock time. Write 09:30.`);
    const what = cellOrNull(row, 'what');
    if (what !== null && what.length > LONGEST_BOOKING) refuseCell(row, 'what', `Too long: ${LONGEST_BOOKING} characters at most.`);
    return { day: dayCell(row, 'day'), time, what, state: oneOfCell(row, 'state', BOOKING_STATES) };
  });
  return { bookings };
}

/** Table `observation`: what is looked at beside the measures. */
export const OBSERVED: SetTable = {
  name: 'observation',
  says: 'One row a thing looked at on a day: hours worn, a mark on the skin, a scale, a movement.',
  columns: [
    SUBJECT_ID,
    { name: 'kind', kind: 'word', says: 'Which, by the id of the catalogue; own-… is a clinic’s own, which is not brought in elsewhere.' },
    { name: 'version', kind: 'word', says: 'Version of its items.' },
    { name: 'day', kind: 'day', says: 'Day it was looked at.' },
    { name: 'choice', kind: 'word', says: 'One of the choices of its kind.' },
    { name: 'side', kind: 'word', says: 'left or right, the patient’s own.' },
    { name: 'limb', kind: 'word', says: 'Limb of a place.' },
    { name: 'place_side', kind: 'word', says: 'Side of that limb.' },
    { name: 'along', kind: 'decimal', says: 'How far along the limb the place is, 0 at its far landmark, 1 at its near one.' },
    { name: 'gone', kind: 'day', says: 'Day a mark was gone.' },
    { name: 'rater', kind: 'identity', says: 'Who looked.' },
    { name: 'words', kind: 'free-text', says: 'The same in words.' },
    { name: 'figures', kind: 'json', says: 'One figure an item.' },
  ],
  rows: ({ subjectId, file: { observations = [] } }) =>
    observations.map((one) => ({
      subject_id: subjectId,
      kind: one.kind,
      version: one.version,
      day: one.day,
      choice: one.choice ?? '',
      side: one.side ?? '',
      limb: one.place?.limb ?? '',
      place_side: one.place?.side ?? '',
      along: one.place ? String(one.place.along) : '',
      gone: one.gone ?? '',
      rater: one.rater ?? '',
      words: one.words ?? '',
      figures: JSON.stringify(one.figures),
    })),
};

/** Table `observed_figure`: the figures of `observation`, a row each, for whoever counts them. Written only. */
export const OBSERVED_FIGURE: SetTable = {
  name: 'observed_figure',
  says: 'One row a figure of a thing looked at: an hour, a point of a scale, a degree. The same figures as in the table observation.',
  columns: [
    SUBJECT_ID,
    { name: 'kind', kind: 'word', says: 'Which, by the id of the catalogue.' },
    { name: 'version', kind: 'word', says: 'Version of its items.' },
    { name: 'day', kind: 'day', says: 'Day it was looked at.' },
    { name: 'item', kind: 'word', says: 'Item of its kind, by the id of the catalogue.' },
    { name: 'value', kind: 'decimal', says: 'The figure, in the unit of its item.' },
  ],
  rows: ({ subjectId, file: { observations = [] } }) =>
    observations.flatMap(({ kind, version, day, figures }) =>
      Object.entries(figures).map(([item, value]) => ({ subject_id: subjectId, kind, version, day, item, value: String(value) })),
    ),
};

/** A subject’s observations; left out where there is none. */
export function readObserved(rows: readonly CsvRow[]): Pick<PatientFile, 'observations'> {
  if (rows.length === 0) return {};
  const observations = rows.map((row): Observation => {
    const limb = row.cell('limb') === '' ? null : oneOfCell(row, 'limb', ['leg', 'arm'] as const);
    const one = {
      kind: filledCell(row, 'kind'),
      version: row.cell('version'),
      day: dayCell(row, 'day'),
      figures: jsonCell(row, 'figures', z.record(z.string(), z.number())) ?? {},
      choice: cellOrNull(row, 'choice'),
      side: row.cell('side') === '' ? null : oneOfCell(row, 'side', ['left', 'right'] as const),
      place: limb && { limb, side: oneOfCell(row, 'place_side', ['left', 'right'] as const), along: numberCell(row, 'along') },
      gone: dayOrNull(row, 'gone'),
      rater: cellOrNull(row, 'rater'),
      words: cellOrNull(row, 'words'),
    };
    const read = OBSERVATION.safeParse(one);
    return read.success ? read.data : refuseCell(row, String(read.error.issues[0]?.path[0] ?? 'kind'), 'This cannot be read.');
  });
  return { observations };
}

/** Table `leaving`: what was gone through before somebody left. */
export const LEFT: SetTable = {
  name: 'leaving',
  says: 'One row a patient for whom the criteria of leaving were gone through.',
  columns: [
    SUBJECT_ID,
    { name: 'day', kind: 'day', says: 'Day they were gone through.' },
    { name: 'criteria', kind: 'json', says: 'Each criterion as it was worded that day, and whether it was met.' },
    { name: 'supplies', kind: 'free-text', says: 'Who supplies garments from then on.' },
    { name: 'note', kind: 'free-text', says: 'Note.' },
  ],
  rows: ({ subjectId, file: { leaving } }) =>
    leaving
      ? [
          {
            subject_id: subjectId,
            day: leaving.day,
            criteria: JSON.stringify(leaving.criteria),
            supplies: leaving.supplies ?? '',
            note: leaving.note ?? '',
          },
        ]
      : [],
};

/** A subject’s leaving; left out where there is none. */
export function readLeft(rows: readonly CsvRow[]): Pick<PatientFile, 'leaving'> {
  const [row, second] = rows;
  if (second) refuseCell(second, 'subject_id', 'This subject has a row already.');
  if (!row) return {};
  const criteria = jsonCell(row, 'criteria', LIST);
  const one = { day: dayCell(row, 'day'), criteria, supplies: cellOrNull(row, 'supplies'), note: cellOrNull(row, 'note') };
  const read = LEAVING.safeParse(one);
  return { leaving: read.success ? read.data : refuseCell(row, String(read.error.issues[0]?.path[0] ?? 'day'), 'This cannot be read.') };
}

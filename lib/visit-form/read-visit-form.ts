import { refusedDay, type VisitDays } from '../course/visit-days';
import { optionalText, orNull } from '../forms/optional-text';
import type { OwnMeasure } from '../parts/measure';
import type { SingleReading, Visit } from '../record/patient-record';
import { readDay } from '../units/calendar-day';
import { readMass } from '../units/mass';
import { readLength } from '../units/read-length';
import { readMeasures } from './read-measures';
import { type FormRefusal, type ReadLadder, readSheetSide } from './read-sheet-side';
import type { VisitForm } from './visit-form';

/** A visit as read from a form. */
export type ReadVisit = Omit<Visit, 'ladders'> & {
  readonly ladders: readonly ReadLadder[];
};

/** A visit as its form was read, or every box that stops it, in the order of the page. */
export type VisitRead =
  | { readonly kind: 'read'; readonly visit: ReadVisit }
  | { readonly kind: 'refused'; readonly refusals: readonly FormRefusal[] };

/**
 * What a form says, or every box that cannot be saved and why. The same on both sides of the wire.
 *
 * Shape: a form, the days a visit may have (from birth to today), the clinic's own measures where they are known (`knownOwnMeasures`); a visit with exact lengths, or refusals in the order of the page.
 * Refuses: a day that is not one, lies before birth or has not come, a time that no clock shows, any text that cannot be read as one figure, a girth
 * whose place is not known, two rows at one place, a visit with nothing measured.
 */
export function readVisitForm(form: VisitForm, days: VisitDays & { readonly ownMeasures?: readonly OwnMeasure[] }): VisitRead {
  const refusals: FormRefusal[] = [];
  const refuse = (where: string, reason: string) => refusals.push({ where, reason });
  const day = readDay(form.day);
  const dayRefused = day.kind === 'read' ? refusedDay(day.value, days) : day.reason;
  if (dayRefused) refuse('day', dayRefused);
  if (form.time.trim() !== '' && !/^([01]?\d|2[0-3]):[0-5]\d$/.test(form.time.trim()))
    refuse('time', 'Type the time as hours and minutes, 14:26.');
  const height = optionalText(
    form.height,
    (text) => readLength(text, form.heightUnit),
    (reason) => refuse('height', reason),
  );
  const weight = optionalText(
    form.weight,
    (text) => readMass(text, form.massUnit),
    (reason) => refuse('weight', reason),
  );
  const ladders = form.sheets.flatMap((sheet, index) =>
    sheet.sides.flatMap((side) => {
      const read = readSheetSide(sheet, side);
      for (const { where, reason } of read.refusals) refuse(`${index}/${where}`, reason);
      return read.ladder.rungs.length > 0 ? [read.ladder] : [];
    }),
  );
  const readings = readSingles(form, refuse);
  const measures = readMeasures(form, refuse, days.ownMeasures);
  const nothing = ladders.length === 0 && !height && !weight && readings.length + measures.length === 0;
  if (refusals.length === 0 && nothing) refuse('form', 'Nothing is typed yet, so there is nothing to save.');
  if (refusals.length > 0 || day.kind !== 'read') return { kind: 'refused', refusals: once(refusals) };
  const words = {
    posture: orNull(form.posture),
    measurer: orNull(form.measurer),
    note: orNull(form.note),
  };
  return {
    kind: 'read',
    visit: {
      day: day.value,
      time: orNull(form.time),
      ...words,
      height,
      weight,
      ladders,
      readings,
      ...(measures.length > 0 ? { measures } : {}),
      keptBody: form.keptBody?.length ? form.keptBody : null,
      occasion: form.occasion || null,
    },
  };
}

function readSingles(form: VisitForm, refuse: (where: string, reason: string) => void): SingleReading[] {
  return form.readings.flatMap(({ name, text, unit }, index): SingleReading[] => {
    if (name.trim() === '' && text.trim() === '') return [];
    if (name.trim() === '') refuse(`reading/${index}`, 'Name this reading, or empty it.');
    const length = optionalText(
      text,
      (typed) => readLength(typed, unit, true),
      (reason) => refuse(`reading/${index}`, reason),
    );
    return length ? [{ name: name.trim(), length }] : [];
  });
}

/** Each box once: a landmark typed for both sides is refused once. */
function once(refusals: readonly FormRefusal[]): FormRefusal[] {
  return [...new Map(refusals.map((one) => [one.where, one])).values()];
}

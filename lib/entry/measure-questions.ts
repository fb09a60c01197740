import type { MeasureDoubtKind } from '../doubts/measure-doubt';
import { measureDoubts } from '../doubts/measure-doubts';
import { type EarlierMeasure, saysTheSame } from '../doubts/measure-observations';
import { goneThroughMeasures, isKept, placeOf } from '../doubts/record-measure-doubts';
import { slipText } from '../ladder/slip';
import type { Policy } from '../limits/policy';
import type { NamedMeasure, PatientRecord, Visit } from '../record/patient-record';
import { readDay } from '../units/calendar-day';
import type { LengthUnit } from '../units/length';
import { readMass } from '../units/mass';
import { readLength } from '../units/read-length';
import { showLength } from '../units/show-length';
import { readableMeasures } from '../visit-form/read-measures';
import { measureKey, type VisitForm } from '../visit-form/visit-form';

/** What the named measures of a sheet are compared with, in plain data. */
export type KnownMeasures = {
  readonly sex: PatientRecord['sex'];
  readonly affectedParts: NonNullable<PatientRecord['affectedParts']>;
  /** The last trusted figure of each measure and side, and one in doubt since. */
  readonly trusted: readonly EarlierMeasure[];
  readonly doubted: readonly EarlierMeasure[];
  /** Heights and weights that are not in doubt. */
  readonly bodies: readonly Pick<Visit, 'day' | 'time' | 'height' | 'weight'>[];
  readonly policy: Policy;
};

/** What a record knows of named measures before a sheet. Shape: the record without what is in doubt, visits before the sheet alone. */
export function knownMeasures(record: PatientRecord, policy: Policy): KnownMeasures {
  const { trusted, doubted } = goneThroughMeasures(record, policy);
  return {
    sex: record.sex,
    affectedParts: record.affectedParts ?? [],
    trusted,
    doubted,
    bodies: record.visits
      .filter(({ height, weight }) => height || weight)
      .map(({ day, time, height, weight }) => ({ day, time, height, weight })),
    policy,
  };
}

/** An open question about a named measure of the form: where it stands, its kind, and the text of a figure that would fit. */
export type MeasureQuestion = {
  readonly where: string;
  readonly doubt: MeasureDoubtKind;
  readonly message: string;
  readonly text: string;
  readonly wouldFit?: string;
};

/**
 * Every question about the named measures of a form that was not kept: the joint law of engine section 11 over what can be read of it.
 *
 * Shape: a form, what is known, the day of birth; at most one question a measure.
 */
export function measureQuestions(form: VisitForm, known: KnownMeasures, born: PatientRecord['born']): MeasureQuestion[] {
  const measures = readableMeasures(form);
  const day = readDay(form.day);
  if (measures.length === 0 || day.kind !== 'read') return [];
  const visit: Visit = { ...NOTHING, ...bodyOf(form), day: day.value, measures };
  const others = known.bodies.map((body): Visit => ({ ...NOTHING, ...body }));
  const { sex, affectedParts } = known;
  const record: PatientRecord = { reference: '', born, sex, affected: [], affectedParts, pieces: [], visits: [...others, visit] };
  const isSaidAgain = (taken: NamedMeasure) =>
    known.doubted.some((one) => placeOf(one.taken) === placeOf(taken) && saysTheSame(record, { day: visit.day, taken }, one, known.policy));
  return measureDoubts(record, visit, known.trusted, known.policy)
    .filter((doubt) => !isKept(doubt) && !isSaidAgain(doubt.taken))
    .map(({ taken, kind, message, wouldFitMm }) => ({
      where: measureKey(taken),
      doubt: kind,
      message,
      text: taken.length.text,
      ...(wouldFitMm === undefined ? {} : { wouldFit: fitText(wouldFitMm, taken.length.unit) }),
    }));
}

/** The figure of the last visit that has a measure, in doubt or not; undefined where none has. */
export function lastMeasure(known: KnownMeasures, where: string): EarlierMeasure | undefined {
  const all = [...known.trusted, ...known.doubted].filter(({ taken }) => measureKey(taken) === where);
  return all.reduce<EarlierMeasure | undefined>((last, one) => (last && last.day > one.day ? last : one), undefined);
}

/** The change of the form that keeps a measure as typed. */
export function keptMeasure(form: VisitForm, { where, doubt }: MeasureQuestion, by: string, at: string): Partial<VisitForm> {
  return {
    measures: (form.measures ?? []).map((one) =>
      measureKey(one) === where ? { ...one, kept: [...(one.kept ?? []), { kind: doubt, by, at }] } : one,
    ),
  };
}

const NOTHING = { time: null, posture: null, measurer: null, height: null, weight: null, note: null, ladders: [] };

function bodyOf(form: VisitForm): Pick<Visit, 'height' | 'weight'> {
  const height = form.height.trim() === '' ? undefined : readLength(form.height, form.heightUnit);
  const weight = form.weight.trim() === '' ? undefined : readMass(form.weight, form.massUnit);
  return { height: height?.kind === 'read' ? height.value : null, weight: weight?.kind === 'read' ? weight.value : null };
}

function fitText(lengthMm: number, unit: LengthUnit): string {
  return unit === 'cm' ? slipText(lengthMm, unit) : showLength(lengthMm, unit, 16);
}

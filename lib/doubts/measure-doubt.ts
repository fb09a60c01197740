import type { DoubtKind } from '../ladder/doubt';
import type { NamedMeasure } from '../record/patient-record';

/** What looks odd about a named measure: a slip, or its kind of evidence where no slip explains it. */
export type MeasureDoubtKind = DoubtKind | 'other-side' | 'other-measures' | 'sum-check' | 'own-range';

/** A question about one named measure of a visit. Its message begins with the question, up to the first question mark. */
export type MeasureDoubt = {
  readonly taken: NamedMeasure;
  readonly kind: MeasureDoubtKind;
  readonly message: string;
  readonly wouldFitMm?: number;
};

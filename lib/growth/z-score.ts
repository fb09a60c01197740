import { isNoAnswer, type NoAnswer } from '../outcome';
import type { Sex } from '../record/patient-record';
import { centileOf } from './centile';
import { type GrowthMeasure, type GrowthReference, type MeasuredHow, type ServingTable, servingTable } from './growth-reference';
import { plainValue, plainZ, restrictedValue, restrictedZ } from './lms';
import { lmsAt } from './lms-table';

/** A child's place in a growth table, with the table's name and edition, and a doubt when the place is hardly possible. */
export type ZScore = {
  readonly z: number;
  /** Per cent of the table's children below. */
  readonly centile: number;
  readonly table: string;
  readonly edition: string;
  /** A sentence when the figure is more likely a slip than a child; null otherwise. Nothing is clamped. */
  readonly doubt: string | null;
};

/** A value read back from a table. */
export type ValueAtZ = { readonly value: number; readonly table: string; readonly edition: string };

/** Outside these z-scores a figure is called implausible, never changed. Source: WHO's readme to its 2006 and 2007 programs. */
const PLAUSIBLE_Z: Readonly<Record<GrowthMeasure, readonly [low: number, high: number]>> = {
  height: [-6, 6],
  weight: [-6, 5],
  bmi: [-5, 5],
};

/** True where WHO's rule beyond ±3 SD holds: its own tables, weight and BMI, never height, never CDC. */
function isRestricted(serving: ServingTable, measure: GrowthMeasure): boolean {
  return measure !== 'height' && serving.table.name.startsWith('WHO');
}

/**
 * The z-score and centile of a child's height, weight or BMI on the clinic's growth tables.
 *
 * Definition: LMS (`lms.ts`), with WHO's restricted rule beyond ±3 for weight and BMI on WHO tables.
 * Shape: age in days; height in cm, weight in kg, BMI in kg/m². Refuses sex X, ages without a table, values not above zero.
 * Weight and BMI mean little while swelling adds weight: WHO computes neither with oedema. The caller decides.
 * Source: WHO 2006 and 2007, CDC 2000 (README in `tables/`).
 * Example: WHO 2006, girl of 365 days, 79.154 cm: z +2.00, centile 97.7.
 */
export function zScore(
  reference: GrowthReference,
  measure: GrowthMeasure,
  sex: Sex,
  ageDays: number,
  value: number,
  how?: MeasuredHow,
): ZScore | NoAnswer {
  if (!(value > 0 && Number.isFinite(value))) return { noAnswer: 'There is no figure above zero to look up.' };
  const serving = servingTable(reference, measure, sex, ageDays, how);
  if (isNoAnswer(serving)) return serving;
  const lms = lmsAt(serving.table, serving.sex, serving.age);
  if (!lms) return { noAnswer: `${serving.table.name} ${serving.table.edition} hold no row for this age.` };
  const compared = value + serving.addToHeightCm;
  const z = isRestricted(serving, measure) ? restrictedZ(lms, compared) : plainZ(lms, compared);
  const [low, high] = PLAUSIBLE_Z[measure];
  const doubt = z < low || z > high ? `So far from the table (z ${z.toFixed(1)}) a slip is more likely than a child.` : null;
  return { z, centile: centileOf(z), table: serving.table.name, edition: serving.table.edition, doubt };
}

/**
 * The height, weight or BMI that stands at a z-score at an age; the other way round of `zScore`.
 *
 * Shape and refusals as `zScore`; also refuses a z-score at which the table has no value.
 * Example: WHO 2006, boy of 731 days, z −2: 81.017 cm.
 */
export function valueAtZ(
  reference: GrowthReference,
  measure: GrowthMeasure,
  sex: Sex,
  ageDays: number,
  z: number,
  how?: MeasuredHow,
): ValueAtZ | NoAnswer {
  const serving = servingTable(reference, measure, sex, ageDays, how);
  if (isNoAnswer(serving)) return serving;
  const lms = lmsAt(serving.table, serving.sex, serving.age);
  if (!lms) return { noAnswer: `${serving.table.name} ${serving.table.edition} hold no row for this age.` };
  const value = isRestricted(serving, measure) ? restrictedValue(lms, z) : plainValue(lms, z);
  if (value === undefined) return { noAnswer: `The table has no value at z ${z}.` };
  return { value: value - serving.addToHeightCm, table: serving.table.name, edition: serving.table.edition };
}

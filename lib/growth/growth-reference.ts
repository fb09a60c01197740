import type { NoAnswer } from '../outcome';
import type { Sex } from '../record/patient-record';
import { DAYS_IN_MONTH } from '../units/age';
import { ageRangeOf, type LmsText } from './lms-table';
import { CDC_2000_BMI } from './tables/cdc-2000-bmi';
import { CDC_2000_LENGTH } from './tables/cdc-2000-length';
import { CDC_2000_STATURE } from './tables/cdc-2000-stature';
import { CDC_2000_WEIGHT } from './tables/cdc-2000-weight';
import { WHO_2006_BMI } from './tables/who-2006-bmi';
import { WHO_2006_LENGTH_HEIGHT } from './tables/who-2006-length-height';
import { WHO_2006_WEIGHT } from './tables/who-2006-weight';
import { WHO_2007_BMI } from './tables/who-2007-bmi';
import { WHO_2007_HEIGHT } from './tables/who-2007-height';
import { WHO_2007_WEIGHT } from './tables/who-2007-weight';

/**
 * The clinic's choice of tables.
 *
 * `cdc-2000`: WHO 2006 under 2 years, CDC 2000 from 2 years (Grummer-Strawn et al., MMWR 2010;59(RR-9)).
 * `who`: WHO 2006 to 60 months, WHO 2007 after (de Onis et al., Bull WHO 2007;85:660).
 */
export type GrowthReference = 'cdc-2000' | 'who';

/** What is compared: height (or lying length) in cm, weight in kg, BMI in kg/m²: the units of the tables. */
export type GrowthMeasure = 'height' | 'weight' | 'bmi';

/** How a child was measured. Left out: lying under 2 years, standing from 2 years, as the tables assume. */
export type MeasuredHow = 'lying' | 'standing';

/** A table, the age to read it at in its own unit, and what to add to a height to match it. */
export type ServingTable = { readonly table: LmsText; readonly age: number; readonly sex: 'F' | 'M'; readonly addToHeightCm: number };

/** From this day a WHO child is measured standing. Source: WHO 2006; 24 months = 730.5 days. */
const STANDING_FROM_DAYS = 731;

/** A lying child is 0.7 cm longer than the same child standing. Source: WHO Child Growth Standards 2006. */
const LYING_LONGER_CM = 0.7;

const WHO_2006: Readonly<Record<GrowthMeasure, LmsText>> = { height: WHO_2006_LENGTH_HEIGHT, weight: WHO_2006_WEIGHT, bmi: WHO_2006_BMI };
const WHO_2007: Readonly<Record<GrowthMeasure, LmsText>> = { height: WHO_2007_HEIGHT, weight: WHO_2007_WEIGHT, bmi: WHO_2007_BMI };
const CDC_2000: Readonly<Record<GrowthMeasure, LmsText>> = { height: CDC_2000_STATURE, weight: CDC_2000_WEIGHT, bmi: CDC_2000_BMI };

/** The reason given when a record reads neither the girls' nor the boys' table. */
export const NO_TABLE_FOR_X: NoAnswer = { noAnswer: 'Growth tables are kept apart for girls and boys, and this record reads neither.' };

const LAST_DAY_OF_WHO_2006 = 1826;

const IN_WORDS: Readonly<Record<GrowthMeasure, string>> = { height: 'height', weight: 'weight', bmi: 'BMI' };

/**
 * Which table serves a child of a sex and age, for a clinic's choice of reference, or why none does.
 *
 * Age is counted in days from dates; months = days / 30.4375.
 * A CDC child of 24 to 35.5 months who was measured lying is read from the CDC length table; every other mismatch of
 * lying and standing is bridged with 0.7 cm.
 * Refuses sex X, a day before birth, and an age past the last row.
 * Example: `who`, weight, 10 years and 1 month: no table, because WHO 2007 gives no weight after 10 years.
 */
export function servingTable(
  reference: GrowthReference,
  measure: GrowthMeasure,
  sex: Sex,
  ageDays: number,
  how?: MeasuredHow,
): ServingTable | NoAnswer {
  if (sex === 'X') return NO_TABLE_FOR_X;
  if (!(ageDays >= 0)) return { noAnswer: 'That day is before the day of birth.' };
  const measuredHow = how ?? (ageDays < STANDING_FROM_DAYS ? 'lying' : 'standing');
  const bridge = measure === 'height' ? bridgeCm(measuredHow, ageDays) : 0;
  if (ageDays < STANDING_FROM_DAYS || (reference === 'who' && ageDays <= LAST_DAY_OF_WHO_2006)) {
    return { table: WHO_2006[measure], age: ageDays, sex, addToHeightCm: bridge };
  }
  const months = ageDays / DAYS_IN_MONTH;
  if (reference === 'cdc-2000' && measure === 'height' && measuredHow === 'lying' && months <= ageRangeOf(CDC_2000_LENGTH).last) {
    return { table: CDC_2000_LENGTH, age: months, sex, addToHeightCm: 0 };
  }
  const table = reference === 'who' ? WHO_2007[measure] : CDC_2000[measure];
  const { last } = ageRangeOf(table);
  if (months > last)
    return { noAnswer: `${table.name} ${table.edition} give no ${IN_WORDS[measure]} after ${Math.floor(last / 12)} years.` };
  return { table, age: months, sex, addToHeightCm: bridge };
}

function bridgeCm(measuredHow: MeasuredHow, ageDays: number): number {
  if (ageDays < STANDING_FROM_DAYS) return measuredHow === 'standing' ? LYING_LONGER_CM : 0;
  return measuredHow === 'lying' ? -LYING_LONGER_CM : 0;
}

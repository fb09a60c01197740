import { DAYS_IN_MONTH } from '../units/age';
import type { GrowthMeasure } from './growth-reference';

/** How a z-score is carried on: the expected later z is `keep` × z, with an SD around it, in z units. */
export type ZDrift = { readonly keep: number; readonly sd: number };

/**
 * SD of the change of height z over 12 months, by age at the start in months.
 *
 * Source: computed on the Berkeley Guidance Study (Tuddenham and Snyder 1954; 66 boys, 70 girls) with the WHO tables.
 */
const HEIGHT_SD_12_MONTHS: Readonly<Record<'F' | 'M', readonly (readonly [ageMonths: number, sd: number])[]>> = {
  M: [
    [24, 0.507],
    [36, 0.328],
    [48, 0.231],
    [60, 0.195],
    [72, 0.16],
    [84, 0.13],
    [96, 0.118],
    [108, 0.088],
    [120, 0.124],
    [132, 0.212],
    [144, 0.262],
    [156, 0.235],
    [168, 0.271],
    [180, 0.299],
    [192, 0.213],
    [204, 0.153],
  ],
  F: [
    [24, 0.513],
    [36, 0.313],
    [48, 0.2],
    [60, 0.234],
    [72, 0.161],
    [84, 0.125],
    [96, 0.13],
    [108, 0.169],
    [120, 0.188],
    [132, 0.191],
    [144, 0.251],
    [156, 0.257],
    [168, 0.197],
    [180, 0.107],
    [192, 0.067],
    [204, 0.06],
  ],
};

/**
 * Correlation of length z with itself 3, 6 and 12 months later, by age at the start in months, under 2 years.
 *
 * Source: computed on 200 Dutch infants (SMOCC; Herngreen et al. 1994, Ann Hum Biol 21:449). The 12-month figure at 9 to
 * 12 months is missing there; the lower of its neighbours stands in.
 */
const INFANT_CORRELATION: readonly (readonly [belowMonths: number, r3: number, r6: number, r12: number])[] = [
  [3, 0.832, 0.652, 0.477],
  [6, 0.811, 0.723, 0.657],
  [9, 0.857, 0.82, 0.767],
  [12, 0.892, 0.835, 0.724],
  [24, 0.895, 0.858, 0.724],
];

/**
 * SD of the change of weight and BMI z over 12 months, before and from 9 years.
 *
 * Source: clinic default. Berkeley Guidance Study (33 boys, 35 girls) gives, per square root of a year, weight 0.26 to 0.28
 * from 2 to 9 and 0.19 to 0.21 from 9 to 18 years, BMI 0.30 to 0.36 and 0.21 to 0.23; rounded up, because those children
 * were leaner than today's.
 */
const OTHER_SD_12_MONTHS: Readonly<Record<'weight' | 'bmi', readonly [before9: number, from9: number]>> = {
  weight: [0.3, 0.25],
  bmi: [0.4, 0.3],
};

/**
 * How far a child's z-score drifts over some months, by measure, sex and age at the start.
 *
 * Under 24 months the z falls towards the middle: keep = r, SD = √(1 − r²), r linear in time between its rows and 1 at no time.
 * From 24 months: keep = 1, SD = yearly SD × √(months / 12). Today's children mature earlier than those of 1928, so of this age
 * and the age a year later the larger SD holds, which widens the years before and in puberty.
 * Shape: months of age at the start and months ahead (above zero, at most 12). Source: the tables above; √time: our choice,
 * wider than the 6-month errors of the same study, many of whose half-year values were filled in.
 * Example: a girl of 10 years, 12 months on: keep 1, SD 0.191.
 */
export function zDrift(measure: GrowthMeasure, sex: 'F' | 'M', ageDays: number, daysAhead: number): ZDrift {
  const ageMonths = ageDays / DAYS_IN_MONTH;
  const months = daysAhead / DAYS_IN_MONTH;
  if (ageMonths < 24) {
    const keep = infantCorrelation(ageMonths, months);
    return { keep, sd: Math.sqrt(1 - keep * keep) };
  }
  const height = Math.max(heightSd(sex, ageMonths), heightSd(sex, ageMonths + 12));
  const yearly = measure === 'height' ? height : Math.max(OTHER_SD_12_MONTHS[measure][ageMonths < 108 ? 0 : 1], height);
  return { keep: 1, sd: yearly * Math.sqrt(months / 12) };
}

function infantCorrelation(ageMonths: number, months: number): number {
  const row = INFANT_CORRELATION.find(([below]) => ageMonths < below) ?? INFANT_CORRELATION[INFANT_CORRELATION.length - 1];
  const [, r3, r6, r12] = row as readonly [number, number, number, number];
  if (months <= 3) return 1 + (r3 - 1) * (months / 3);
  if (months <= 6) return r3 + (r6 - r3) * ((months - 3) / 3);
  return r6 + (r12 - r6) * (Math.min(months - 6, 6) / 6);
}

function heightSd(sex: 'F' | 'M', ageMonths: number): number {
  const rows = HEIGHT_SD_12_MONTHS[sex];
  const above = rows.findIndex(([age]) => age > ageMonths);
  const upper = rows[above === -1 ? rows.length - 1 : above] as readonly [number, number];
  const lower = rows[above === -1 ? rows.length - 1 : Math.max(above - 1, 0)] as readonly [number, number];
  if (upper[0] === lower[0]) return upper[1];
  return lower[1] + ((ageMonths - lower[0]) / (upper[0] - lower[0])) * (upper[1] - lower[1]);
}

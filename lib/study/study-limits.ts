import type { LimitName } from '../limits/limits';
import { isNoAnswer } from '../outcome';
import { type CalendarDay, showDay } from '../units/calendar-day';
import type { StudyErrors } from './study-errors';
import type { StudyPlan } from './study-plan';

/** The limits that a study can set, each with the spread it is taken from. */
export const STUDY_LIMITS = {
  readingSdMm: 'reading',
  tensionSameSd: 'tensionSame',
  tensionOtherSd: 'tensionOther',
  placementSdMm: 'placing',
} as const satisfies Partial<Record<LimitName, keyof StudyErrors>>;

export type StudyLimitName = keyof typeof STUDY_LIMITS;
export const STUDY_LIMIT_NAMES = Object.keys(STUDY_LIMITS) as readonly StudyLimitName[];

/** Less than any hand and tape do; a figure below is one of copied figures, not of an error. Common practice: a tape is read to a millimetre. */
const LEAST: Readonly<Record<StudyLimitName, number>> = {
  readingSdMm: 0.1,
  tensionSameSd: 0.0001,
  tensionOtherSd: 0.0001,
  placementSdMm: 0.1,
};

/**
 * The limits of the engine that a study gives, rounded to three significant figures; what it cannot tell is left out, and stays as it stands.
 *
 * Example: reading 1.98437 mm is 1.98.
 */
export function limitsOfStudy(errors: StudyErrors): Partial<Record<StudyLimitName, number>> {
  return Object.fromEntries(
    STUDY_LIMIT_NAMES.flatMap((name) => {
      const found = errors[STUDY_LIMITS[name]];
      const figure = isNoAnswer(found) ? 0 : Number(found.sd.toPrecision(3));
      return figure >= LEAST[name] ? [[name, figure]] : [];
    }),
  );
}

/** How the sentence begins that stands beside a limit that a study set. */
export const STUDY_REASON = 'measured in this clinic on ';

/** What stands beside a limit that a study set. Example: `measured in this clinic on 18 Nov 2026, n = 30 tapings of 5 limbs by 3 measurers (study 1a2b3c4d)`. */
export function reasonOfStudy(plan: StudyPlan, studyId: string, day: CalendarDay): string {
  const n = plan.limbs.length * plan.measurers.length * plan.repeats;
  return `${STUDY_REASON}${showDay(day)}, n = ${n} tapings of ${plan.limbs.length} limbs by ${plan.measurers.length} measurers (study ${studyId.slice(0, 8)})`;
}

/** The limits without what a study set: each as it stood before, or gone where it stood at its default. */
export function withoutStudy<P extends object>(own: P, before: P): P {
  const kept = Object.entries(own).filter(([name]) => !STUDY_LIMIT_NAMES.some((one) => one === name));
  const earlier = Object.entries(before).filter(([name]) => STUDY_LIMIT_NAMES.some((one) => one === name));
  return Object.fromEntries([...kept, ...earlier]) as P;
}

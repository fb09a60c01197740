import { BODY_LIMITS } from './body-limits';
import { CALENDAR_LIMITS } from './calendar-limits';
import { CAUTION_ASK_LIMITS } from './caution-ask-limits';
import { CAUTION_LIMITS } from './caution-limits';
import { COURSE_LIMITS } from './course-limits';
import { FABRIC_LIMITS } from './fabric-limits';
import { FAMILY_LIMITS } from './family-limits';
import { FIT_LIMITS } from './fit-limits';
import { MEASURE_LIMITS } from './measure-limits';
import { RETENTION_LIMITS } from './retention-limits';
import { TAPE_LIMITS } from './tape-limits';

/**
 * Every limit of the engine, with its unit, its source and the kind of source. Each can be set by the clinic.
 *
 * Arithmetic constants (12π, 25.4) are not limits and stand with their formula.
 */
export const LIMITS = {
  ...TAPE_LIMITS,
  ...BODY_LIMITS,
  ...MEASURE_LIMITS,
  ...FIT_LIMITS,
  ...FABRIC_LIMITS,
  ...COURSE_LIMITS,
  ...CALENDAR_LIMITS,
  ...CAUTION_LIMITS,
  ...CAUTION_ASK_LIMITS,
  ...FAMILY_LIMITS,
  ...RETENTION_LIMITS,
} as const;

/** The name a limit has in `policy.json`, in the clinic’s settings and on the Limits screen. */
export type LimitName = keyof typeof LIMITS;

/** The limits by subject, in the order of the Limits screen. */
export const LIMIT_GROUPS: readonly { readonly name: string; readonly limits: readonly LimitName[] }[] = [
  group('How well we measure', TAPE_LIMITS),
  group('Body and growth', BODY_LIMITS),
  group('Named measures', MEASURE_LIMITS),
  group('Fit and wear', FIT_LIMITS),
  group('Fabric and pressure', FABRIC_LIMITS),
  group('The course of a limb', COURSE_LIMITS),
  group('Calendar and orders', CALENDAR_LIMITS),
  group('Cautions', CAUTION_LIMITS),
  group('How long a caution’s “no” counts', CAUTION_ASK_LIMITS),
  group('What the family is given and tells', FAMILY_LIMITS),
  group('Keeping records', RETENTION_LIMITS),
];

function group(name: string, limits: Readonly<Partial<Record<LimitName, unknown>>>) {
  return { name, limits: Object.keys(limits) as LimitName[] };
}

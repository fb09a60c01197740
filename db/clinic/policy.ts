import { repeatSd } from '@/lib/ladder/repeat-sd';
import type { LimitName } from '@/lib/limits/limits';
import { type Policy, policySchema, policyWith } from '@/lib/limits/policy';
import type { CalendarDay } from '@/lib/units/calendar-day';
import { repeatTapingsOf } from '../patients/repeat-tapings';
import type { Therapist } from '../therapist';
import { settingsOf } from './clinic';

/** Key of the clinic setting that holds the clinic's own limits; only what differs from what would stand without them is in it. */
export const POLICY_KEY = 'policy';

/** The limits in force and where the reading error comes from: a lead, the clinic's own second tapings, or the default. */
export type PolicyInForce = {
  readonly policy: Policy;
  /** What leads have set, as it is stored. */
  readonly own: Partial<Policy>;
  /** What would stand if no lead had set anything. */
  readonly unset: Policy;
  readonly reading: {
    readonly from: 'lead' | 'tapings' | 'default';
    readonly pairs: number;
    readonly newest: CalendarDay | null;
    /** SD by the clinic's own tapings, mm; undefined while they are too few. */
    readonly sdMm: number | undefined;
  };
};

/** A clinic's own limits without those that this version no longer has: a setting that means nothing any more must not stop the clinic. */
function stillLimits(value: unknown): unknown {
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).filter(([name]) => name in policySchema.shape));
}

/** One limit as the clinic has set it, else its default: for what asks for nothing of the tape. */
export async function limitOf(therapist: Pick<Therapist, 'clinicId'>, name: LimitName): Promise<number> {
  const set = (await settingsOf(therapist)).get(POLICY_KEY);
  const own = set ? policySchema.parse(stillLimits(set.value)) : {};
  return policyWith(own)[name];
}

/** The limits that the engine works with in this clinic: the defaults with the clinic's own in their place. */
export async function policyOf(therapist: Therapist, at = new Date()): Promise<Policy> {
  return (await policyInForce(therapist, at)).policy;
}

/** The same with what it stands on. The clinic's own tapings give the reading error from ten pairs on, unless a lead has set it. */
export async function policyInForce(therapist: Therapist, at = new Date()): Promise<PolicyInForce> {
  const set = (await settingsOf(therapist)).get(POLICY_KEY);
  const own = set ? policySchema.parse(stillLimits(set.value)) : {};
  const { newest, ...pairs } = await repeatTapingsOf(therapist, at);
  const sdMm = repeatSd(pairs);
  const byTapings = sdMm === undefined ? {} : { readingSdMm: sdMm };
  const otherwise = sdMm === undefined ? 'default' : 'tapings';
  return {
    policy: policyWith({ ...byTapings, ...own }),
    own,
    unset: policyWith(byTapings),
    reading: { from: own.readingSdMm === undefined ? otherwise : 'lead', pairs: pairs.pairs, newest, sdMm },
  };
}

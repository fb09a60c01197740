import { DEFAULT_POLICY, type Policy, policySchema, policyWith } from '@/lib/record/policy';
import { settingsOf } from './clinic';
import type { Therapist } from './therapist';

/** Key of the clinic setting that holds the clinic's own limits; only what differs from the defaults stands in it. */
export const POLICY_KEY = 'policy';

/** The limits that the engine works with in this clinic: the defaults with the clinic's own in their place. */
export async function policyOf(therapist: Therapist): Promise<Policy> {
  const own = (await settingsOf(therapist)).get(POLICY_KEY);
  if (!own) return DEFAULT_POLICY;
  return policyWith(policySchema.parse(own.value));
}

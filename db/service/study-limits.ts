import { policySchema } from '@/lib/limits/policy';
import { isNoAnswer } from '@/lib/outcome';
import { limitsOfStudy, reasonOfStudy, STUDY_LIMIT_NAMES, type StudyLimitName, withoutStudy } from '@/lib/study/study-limits';
import type { CalendarDay } from '@/lib/units/calendar-day';
import { changeSetting, historyOfSetting } from '../clinic/clinic';
import { POLICY_KEY, policyInForce } from '../clinic/policy';
import type { Therapist } from '../therapist';
import { studyOf, studyResultFor } from './studies';

/** Which limits a study set that still stand as it set them. */
export type StudyLimitsKept = { readonly reason: string; readonly standing: readonly StudyLimitName[] };

/** Sets the clinic's limits to what a whole study found, with where they are from; what the study cannot tell stays. False where it tells nothing. */
export async function keepStudyLimits(lead: Therapist, studyId: string, day: CalendarDay): Promise<boolean> {
  const [study, result] = [await studyOf(lead, studyId), await studyResultFor(lead, studyId)];
  if (!study || !result || isNoAnswer(result)) return false;
  const found = limitsOfStudy(result.errors);
  if (Object.keys(found).length === 0) return false;
  const { own } = await policyInForce(lead);
  const value = policySchema.parse({ ...own, ...found });
  await changeSetting(lead, { key: POLICY_KEY, value, reason: reasonOfStudy(study.plan, studyId, day) });
  return true;
}

/** Puts the limits that a study set back to what stood before it, as a change of its own; the rest stays as it is. False where none of them stands. */
export async function takeBackStudyLimits(lead: Therapist, studyId: string, day: CalendarDay): Promise<boolean> {
  const kept = await studyLimitsKept(lead, studyId, day);
  if (!kept || kept.standing.length === 0) return false;
  const history = await historyOfSetting(lead, POLICY_KEY);
  const at = history.findLastIndex(({ reason }) => reason === kept.reason);
  const before = (history[at - 1]?.value ?? {}) as Record<string, unknown>;
  const { own } = await policyInForce(lead);
  const value = policySchema.parse(withoutStudy(own, before));
  await changeSetting(lead, { key: POLICY_KEY, value, reason: `taken back: ${kept.reason}`.slice(0, 200) });
  return true;
}

/** What a study set, as it stands now; undefined where it never set anything. */
export async function studyLimitsKept(therapist: Therapist, studyId: string, day: CalendarDay): Promise<StudyLimitsKept | undefined> {
  const study = await studyOf(therapist, studyId);
  if (!study) return undefined;
  const reason = reasonOfStudy(study.plan, studyId, day);
  const set = (await historyOfSetting(therapist, POLICY_KEY)).findLast((one) => one.reason === reason);
  if (!set) return undefined;
  const { own } = await policyInForce(therapist);
  const then = (set.value ?? {}) as Partial<Record<StudyLimitName, number>>;
  const standing = STUDY_LIMIT_NAMES.filter((name) => then[name] !== undefined && then[name] === own[name]);
  return { reason, standing };
}

import { createHash } from 'node:crypto';
import type { Diary } from '@/lib/diary/diary';
import type { Policy } from '@/lib/limits/policy';
import { RULES } from '@/lib/prompts/decide-prompts';
import type { MeasurerMatch } from '@/lib/record/measurer';

/** Raised when the schedule, the lines made of it, or what came of answers change in meaning, so that stored lines are made anew. */
const SCHEDULE_VERSION = 5;

/** What stored lines were made with, in one short text: rules with their versions, the schedule's version, the clinic's limits, the days it works and who measured. */
export function workBasis(
  policy: Policy,
  { weekdays, closed }: Pick<Diary, 'weekdays' | 'closed'>,
  measurers: readonly MeasurerMatch[],
): string {
  const matched = measurers.map(({ digest, is }) => [digest, ...Object.values(is)]).sort();
  const rules = RULES.map(({ id, version }) => `${id}/${version}`).sort();
  const limits = Object.entries(policy).sort(([one], [other]) => (one < other ? -1 : 1));
  return createHash('sha256')
    .update(JSON.stringify([SCHEDULE_VERSION, rules, limits, [weekdays, closed.map(({ from, until }) => [from, until])], matched]))
    .digest('hex')
    .slice(0, 32);
}

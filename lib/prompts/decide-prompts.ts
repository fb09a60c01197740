import type { PatientAnalysis } from '../analysis/analyse-patient';
import { isAtRest } from '../course/day-to-ask';
import { type Prompt, type Rule, URGENCY } from './prompt';
import { allowanceUsedUp } from './rules/allowance-used-up';
import { askAgain } from './rules/ask-again';
import { bodyNotMeasured } from './rules/body-not-measured';
import { childPartNotMeasured } from './rules/child-part-not-measured';
import { doubtfulReadings } from './rules/doubtful-readings';
import { firstFitMissing } from './rules/first-fit-missing';
import { growthSinceCut } from './rules/growth-since-cut';
import { movedZero } from './rules/moved-zero';
import { oneSidedGain } from './rules/one-sided-gain';
import { endOfLifeNear, outgrownBeforeWornOut } from './rules/order-in-time';
import { partOutgrown } from './rules/part-outgrown';
import { reboundAfterReduction } from './rules/rebound-after-reduction';
import { reductionLevelledOff } from './rules/reduction-levelled-off';
import { releaseAfterFit } from './rules/release-after-fit';
import { residualLimbShrinks } from './rules/residual-limb-shrinks';
import { standingCaution } from './rules/standing-caution';
import { suddenWeightGain } from './rules/sudden-weight-gain';
import { tightnessLeftBand } from './rules/tightness-left-band';
import { unexplainedChange } from './rules/unexplained-change';
import { visitOverdue } from './rules/visit-overdue';
import { weightSinceCut } from './rules/weight-since-cut';

/** Every rule. A new rule is one file and one line here. */
export const RULES: readonly Rule[] = [
  standingCaution,
  oneSidedGain,
  suddenWeightGain,
  doubtfulReadings,
  movedZero,
  unexplainedChange,
  reductionLevelledOff,
  reboundAfterReduction,
  tightnessLeftBand,
  partOutgrown,
  allowanceUsedUp,
  outgrownBeforeWornOut,
  endOfLifeNear,
  growthSinceCut,
  weightSinceCut,
  residualLimbShrinks,
  releaseAfterFit,
  firstFitMissing,
  bodyNotMeasured,
  childPartNotMeasured,
  visitOverdue,
  askAgain,
];

/**
 * Every prompt that the rules raise for a patient on a day, most urgent first. On hold and after the end only the day to ask again is one;
 * after a death none is.
 *
 * Shape: an analysis; prompts in order of urgency, then of due day, then of rule.
 */
export function raisePrompts(analysis: PatientAnalysis): Prompt[] {
  const rules = isAtRest(analysis.record.phases ?? [], analysis.today) ? [askAgain] : RULES;
  return rules
    .flatMap((rule) => rule.apply(analysis).map((prompt) => ({ rule: rule.id, ruleVersion: rule.version, ...prompt })))
    .sort(byUrgency);
}

/** A prompt with the others of the same cause behind it. */
export type MergedPrompt = Prompt & {
  readonly also: readonly Prompt[];
  /** Somebody began to act on it, and it is not done yet. */
  readonly begun?: PromptAnswer;
};

/**
 * Prompts merged by cause: the most urgent of a cause stands for it, the rest follow behind.
 *
 * Example: growth, weight and tightness of one leg are one prompt about its size.
 */
export function mergeByCause(prompts: readonly Prompt[]): MergedPrompt[] {
  const merged = new Map<string, { first: Prompt; also: Prompt[] }>();
  for (const prompt of prompts) {
    const standing = merged.get(prompt.cause);
    if (standing) standing.also.push(prompt);
    else merged.set(prompt.cause, { first: prompt, also: [] });
  }
  return [...merged.values()].map(({ first, also }) => ({ ...first, also }));
}

/**
 * What can be answered to a prompt. `begun`: somebody went to where the act is done, and nothing is done yet. `act`: it is done: an order was sent,
 * a visit saved, a step of the piece taken, a call or a review noted.
 */
export const ANSWER_KINDS = ['act', 'begun', 'not-now', 'not-for-this-patient', 'open-again'] as const;
export type AnswerKind = (typeof ANSWER_KINDS)[number];

/** How a prompt was answered earlier. */
export type PromptAnswer = {
  readonly cause: string;
  readonly inputs: string;
  readonly answer: AnswerKind;
  readonly until: string | null;
};

/** At most this many prompts are open on screen at once. Source: each further reminder cut acceptance by 30 % (Ancker 2017). */
export const MOST_SHOWN = 3;

/**
 * The prompts still open after earlier answers. Done or declined: hidden until its inputs change; an order that was sent hides nothing by itself, its pieces do. Not now: hidden until its day. Begun:
 * open, and marked.
 * Opened again by hand: open, whatever was answered before.
 *
 * An answer holds for every rule that stood in the prompt when it was given, so a prompt that only lost a part stays answered, and one
 * with a new part, new inputs or a new rule version is open again.
 * Shape: merged prompts, answers oldest first, today; open prompts in the same order.
 */
export function openPrompts(prompts: readonly MergedPrompt[], answers: readonly PromptAnswer[], today: string): MergedPrompt[] {
  return prompts.flatMap((prompt) => {
    if (![prompt, ...prompt.also].some((one) => isOpen(one, prompt.cause, answers, today))) return [];
    const last = answerTo(prompt, answers);
    return [last?.answer === 'begun' ? { ...prompt, begun: last } : prompt];
  });
}

function isOpen(one: Prompt, cause: string, answers: readonly PromptAnswer[], today: string): boolean {
  const last = lastAnswer(partOf(one), cause, answers);
  if (!last || last.answer === 'open-again' || last.answer === 'begun') return true;
  // While what was ordered follows, no rule asks for an order: one that is asked for was cancelled, or is another's.
  if (last.answer === 'act' && one.action === 'order') return true;
  return last.answer === 'not-now' && (last.until === null || last.until <= today);
}

/** The answer that holds for a part of a prompt: the last one given while that part stood in it. */
function lastAnswer<T extends PromptAnswer>(part: string, cause: string, answers: readonly T[]): T | undefined {
  return answers
    .filter((answer) => answer.cause === cause && `${JOINT}${answer.inputs}${JOINT}`.includes(`${JOINT}${part}${JOINT}`))
    .at(-1);
}

/** What the screen of a patient should name when no prompt is open: those put off to a day, with the day. */
export function putOff(
  raised: readonly MergedPrompt[],
  open: readonly MergedPrompt[],
  answers: readonly PromptAnswer[],
): readonly { readonly prompt: MergedPrompt; readonly until: string }[] {
  return raised.flatMap((prompt) => {
    const last = open.some((one) => one.cause === prompt.cause) ? undefined : answerTo(prompt, answers);
    return last?.answer === 'not-now' && last.until !== null ? [{ prompt, until: last.until }] : [];
  });
}

/** The last answer given to a prompt as it stands, for a screen that says why it rests; undefined when none was. */
export function answerTo<T extends PromptAnswer>(prompt: MergedPrompt, answers: readonly T[]): T | undefined {
  const held = partsOf(prompt).flatMap((part) => lastAnswer(part, prompt.cause, answers) ?? []);
  return held.sort((one, other) => answers.indexOf(one) - answers.indexOf(other)).at(-1);
}

const JOINT = '; ';

/** The inputs of a merged prompt: its own and those of what stands behind it. */
export function inputsOf(prompt: MergedPrompt): string {
  return partsOf(prompt).join(JOINT);
}

function partsOf(prompt: MergedPrompt): string[] {
  return [prompt, ...prompt.also].map(partOf);
}

function partOf({ rule, ruleVersion, inputs }: Prompt): string {
  return `${rule}/${ruleVersion}: ${inputs}`;
}

function byUrgency(one: Prompt, other: Prompt): number {
  return URGENCY[one.action] - URGENCY[other.action] || (one.due ?? '9999').localeCompare(other.due ?? '9999');
}

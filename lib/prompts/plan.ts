import { limbInWords } from '../ladder/limb';
import type { WornPlace } from '../record/patient-record';
import type { MergedPrompt } from './decide-prompts';
import { MOST_SHOWN } from './decide-prompts';
import type { Prompt, PromptAction } from './prompt';

/** One step of a plan: what is answered as one, and every reason that is merged in it. */
export type PlanStep = {
  /** From 1, in the order in which things are done. */
  readonly number: number;
  readonly prompt: MergedPrompt;
  /** The title of the prompt, naming every piece where the same is asked of several. */
  readonly title: string;
  readonly reasons: readonly Prompt[];
  /** Among the most urgent of the patient; the others stand behind one line. */
  readonly shown: boolean;
};

/** What is to be done about one limb and its pieces, or about the patient, in the order in which it is done. */
export type Plan = { readonly limb: WornPlace | null; readonly steps: readonly PlanStep[] };

/** What comes before what: a figure is checked before it is acted on, a limb measured before a piece is cut. Common practice. */
const IN_ORDER: readonly PromptAction[] = [
  'refer',
  'repeat-reading',
  'remeasure',
  'review',
  'refit',
  'let-out',
  'release',
  'order',
  'first-fit',
  'visit',
  'ask',
];

/**
 * Open prompts as one plan a limb: its pieces with it, steps in the order in which they are done, each still answered by its own cause.
 *
 * A step is a merged prompt as it was: nothing is answered for another one. The plan with the most urgent prompt comes first, and a referral heads its
 * plan. Shape: open prompts, most urgent first; plans. Cost: sorting.
 * Example: “order by 9 Dec”, “refit piece 3” and “measure again” of one arm are steps 3, 2 and 1.
 */
export function plansOf(open: readonly MergedPrompt[]): Plan[] {
  const byLimb = new Map<string, { limb: WornPlace | null; prompts: MergedPrompt[] }>();
  for (const prompt of open) {
    const limb = prompt.about.limb ?? null;
    const key = limb ? `${limb.side} ${limb.limb}` : '';
    const plan = byLimb.get(key);
    if (plan) plan.prompts.push(prompt);
    else byLimb.set(key, { limb, prompts: [prompt] });
  }
  const urgent = new Set(open.slice(0, MOST_SHOWN));
  return [...byLimb.values()].map(({ limb, prompts }) => ({
    limb,
    steps: [...prompts].sort(byTurn).map((prompt, index) => ({
      number: index + 1,
      prompt,
      title: titleOf(prompt),
      reasons: [prompt, ...prompt.also],
      shown: urgent.has(prompt),
    })),
  }));
}

function byTurn(one: Prompt, other: Prompt): number {
  return IN_ORDER.indexOf(one.action) - IN_ORDER.indexOf(other.action) || (one.due ?? '9999').localeCompare(other.due ?? '9999');
}

/** The title of a prompt; where the same rule asks the same of several pieces of the limb, with all of them: `left-leg pieces 3 and 4`. */
function titleOf(prompt: MergedPrompt): string {
  const { limb, piece } = prompt.about;
  if (!limb || piece === undefined) return prompt.title;
  const alike = [prompt, ...prompt.also].flatMap((one) =>
    one.rule === prompt.rule && one.title.replace(named(limb, one.about.piece), '') === prompt.title.replace(named(limb, piece), '')
      ? (one.about.piece ?? [])
      : [],
  );
  const pieces = [...new Set(alike)];
  if (pieces.length < 2) return prompt.title;
  const all = `${pieces.slice(0, -1).join(', ')} and ${pieces.at(-1)}`;
  return prompt.title
    .replace(named(limb, piece), `${limbInWords(limb.limb, limb.side).replace(' ', '-')} pieces ${all}`)
    .replace(': it sits ', ': they sit ')
    .replace(': it is not worn yet and would sit ', ': they are not worn yet and would sit ');
}

function named({ limb, side }: WornPlace, piece: string | undefined): string {
  return `${limbInWords(limb, side).replace(' ', '-')} piece ${piece ?? ''}`;
}

import type { PatientAnalysis } from '../analysis/analyse-patient';
import type { ComparedWith } from '../limits/limit-in-words';
import type { WornPlace } from '../record/patient-record';
import type { CalendarDay } from '../units/calendar-day';

/** What a prompt proposes to do. */
export type PromptAction =
  | 'refer'
  | 'review'
  | 'repeat-reading'
  | 'remeasure'
  | 'refit'
  | 'release'
  | 'order'
  | 'let-out'
  | 'first-fit'
  | 'visit'
  | 'ask';

/** What the saving of a visit brings to its end. */
export const DONE_BY_MEASURING: readonly PromptAction[] = ['repeat-reading', 'remeasure', 'refit', 'visit'];

/** A proposed next action with its evidence. It never decides: every title says "consider", but for a referral. */
export type Prompt = {
  /** Rule id and version, so that a logged answer can be traced to the rule as it was. */
  readonly rule: string;
  readonly ruleVersion: number;
  readonly action: PromptAction;
  /** Day by which to act; null when there is none. */
  readonly due: CalendarDay | null;
  readonly title: string;
  /** One fact a sentence, each with its unit and day. */
  readonly facts: readonly string[];
  /** The deciding figures of the same facts, each with what it is, for a reader who looks before reading. */
  readonly figures?: readonly { readonly value: string; readonly label: string }[];
  /** What is to be done before it, in one sentence; it stands beside the title, not among the reasons. */
  readonly before?: string;
  /** What was missing for a surer answer. */
  readonly missing: readonly string[];
  /** What the rule compared with; `limitInWords` says figure, kind and source. */
  readonly limits: readonly ComparedWith[];
  /** Prompts of one cause are merged: one limb's size, one piece's replacement. */
  readonly cause: string;
  readonly about: { readonly limb?: WornPlace; readonly piece?: string };
  /** Changes when, and only when, the data behind the prompt changes; a declined prompt returns with a new one. */
  readonly inputs: string;
};

/** One rule: a pure look at an analysis. `id` and `version` go with every answer. */
export type Rule = {
  readonly id: string;
  readonly version: number;
  readonly apply: (analysis: PatientAnalysis) => Omit<Prompt, 'rule' | 'ruleVersion'>[];
};

/** Most urgent first: referrals, doubtful readings, then what ends a fit, then what keeps the calendar. Clinic default. */
export const URGENCY: Readonly<Record<PromptAction, number>> = {
  refer: 0,
  'repeat-reading': 1,
  review: 2,
  refit: 3,
  release: 4,
  order: 4,
  'let-out': 5,
  remeasure: 6,
  'first-fit': 7,
  visit: 8,
  ask: 9,
};

import { limbInWords } from '@/lib/ladder/limb';
import type { Policy } from '@/lib/limits/policy';
import { type MergedPrompt, MOST_SHOWN } from '@/lib/prompts/decide-prompts';
import { type Plan, type PlanStep, plansOf } from '@/lib/prompts/plan';
import type { ScheduledDate } from '@/lib/schedule/scheduled-date';
import type { CalendarDay } from '@/lib/units/calendar-day';
import { capitalized } from '@/lib/units/capitalized';
import styles from './prompt.module.css';
import { PromptView } from './prompt-view';

type Props = {
  readonly prompts: readonly MergedPrompt[];
  readonly patientId: string;
  readonly today: CalendarDay;
  readonly mayAnswer: boolean;
  readonly policy: Policy;
  readonly dates: readonly ScheduledDate[];
  readonly pieces: readonly { readonly piece: string; readonly pieceId: string }[];
  /** The first step of all stands large, its reasons open. */
  readonly first: boolean;
};

/** What is open, as one ordered list a limb: each step with its reasons folded and its own answers; the less urgent behind one line. */
export function PlanView({ prompts, first, ...asked }: Props) {
  const plans = plansOf(prompts);
  const behind = Math.max(prompts.length - MOST_SHOWN, 0);
  const named = plans.length > 1 || (plans[0]?.steps.length ?? 0) > 1;
  return (
    <>
      {plans.map((plan, index) => (
        <Steps
          key={nameOf(plan)}
          plan={plan}
          steps={plan.steps.filter((step) => step.shown)}
          named={named}
          asked={asked}
          large={first && index === 0 ? plan.steps.find((step) => step.shown) : undefined}
        />
      ))}
      {behind > 0 && (
        <details className={styles.morePrompts}>
          <summary>{`${behind} less urgent`}</summary>
          {plans.map((plan) => (
            <Steps key={nameOf(plan)} plan={plan} steps={plan.steps.filter((step) => !step.shown)} named asked={asked} large={undefined} />
          ))}
        </details>
      )}
    </>
  );
}

function nameOf({ limb }: Plan): string {
  return limb ? capitalized(limbInWords(limb.limb, limb.side)) : 'Patient';
}

function Steps({
  plan,
  steps,
  named,
  asked,
  large,
}: {
  plan: Plan;
  steps: readonly PlanStep[];
  named: boolean;
  asked: Omit<Props, 'prompts' | 'first'>;
  large: PlanStep | undefined;
}) {
  if (steps.length === 0) return null;
  return (
    <section className={styles.plan} aria-label={`Plan: ${nameOf(plan)}`}>
      {named && (
        <p className={styles.planName}>
          <strong>{nameOf(plan)}</strong>
          {steps.length > 1 ? ', in this order' : ''}
        </p>
      )}
      <ol className={styles.steps}>
        {steps.map((step) => (
          <li key={step.prompt.cause}>
            <PromptView prompt={step.prompt} step={named ? step : { ...step, number: null }} {...asked} first={step === large} />
          </li>
        ))}
      </ol>
    </section>
  );
}

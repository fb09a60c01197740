import clsx from 'clsx';
import { limitInWords } from '@/lib/limits/limit-in-words';
import type { Policy } from '@/lib/limits/policy';
import type { MergedPrompt } from '@/lib/prompts/decide-prompts';
import type { PlanStep } from '@/lib/prompts/plan';
import type { Prompt } from '@/lib/prompts/prompt';
import type { ScheduledDate } from '@/lib/schedule/scheduled-date';
import { addDays, type CalendarDay, showShortWeekday } from '@/lib/units/calendar-day';
import { ACT_WORDS, bookedAt, quickDays, triedAt } from './after-acting';
import styles from './prompt.module.css';
import { PromptAnswers } from './prompt-answers';

type Props = {
  readonly prompt: MergedPrompt;
  /** Its place in the plan, its title there, and every reason merged in it; without a number where it is the only step. */
  readonly step: Pick<PlanStep, 'title' | 'reasons'> & { readonly number: number | null };
  readonly patientId: string;
  readonly today: CalendarDay;
  readonly mayAnswer: boolean;
  readonly first: boolean;
  /** The clinic's limits in force. */
  readonly policy: Policy;
  /** The dates of the schedule: the next visit among them is offered as a day to ask again. */
  readonly dates: readonly ScheduledDate[];
  /** The patient's pieces: what is tried with one of them has a page of its own. */
  readonly pieces: readonly { readonly piece: string; readonly pieceId: string }[];
};

/** A prompt with its evidence: the sentence, the figures under it, the rule with its source, and the three answers. */
export function PromptView({ prompt, step, patientId, today, mayAnswer, first, policy, dates, pieces }: Props) {
  const tried = triedAt(patientId, prompt, pieces);
  const refer = prompt.action === 'refer';
  return (
    <article className={clsx(styles.prompt, first && styles.first)} aria-label={step.title}>
      <div>
        {step.number !== null && (
          <p className={styles.stepOf}>
            <span className={styles.stepNumber}>{step.number}</span>
            {prompt.due && <span className="secondary">{dueInWords(prompt.due, today)}</span>}
          </p>
        )}
        <h3 className={clsx(first && 'prompt-sentence', refer && styles.refer)}>{step.title}</h3>
        {prompt.before && <p className={styles.before}>{prompt.before}</p>}
        {prompt.begun && <p className={styles.begun}>Begun, not done yet.</p>}
        {first && prompt.figures && <Figures figures={prompt.figures} />}
        {first ? (
          <Reasons prompt={prompt} title={step.title} policy={policy} inWords={Boolean(prompt.figures)} />
        ) : (
          <>
            <p className={styles.stepFact}>{prompt.facts[0]}</p>
            <details className={styles.why}>
              <summary>{step.reasons.length > 1 ? `Why: ${step.reasons.length} reasons in one` : 'Why'}</summary>
              <Reasons prompt={prompt} title={step.title} policy={policy} inWords={false} />
            </details>
          </>
        )}
        {tried && (
          <p className={styles.tried}>
            <a href={tried}>What if: let out, order now, or wait</a>
          </p>
        )}
      </div>
      {mayAnswer && (
        <PromptAnswers
          patientId={patientId}
          cause={prompt.cause}
          actWords={prompt.begun ? `Go on: ${ACT_WORDS[prompt.action].toLowerCase()}` : ACT_WORDS[prompt.action]}
          earliest={addDays(today, 1)}
          latest={addDays(today, 366)}
          quick={quickDays(today, dates)}
          book={bookedAt(patientId, prompt.action)}
        />
      )}
    </article>
  );
}

function dueInWords(due: CalendarDay, today: CalendarDay): string {
  return due <= today ? 'now' : `by ${showShortWeekday(due)}`;
}

/** Every fact, what was missing, what else is merged in it, and the rules with their limits. */
function Reasons({ prompt, title, policy, inWords }: { prompt: MergedPrompt; title: string; policy: Policy; inWords: boolean }) {
  /** Said once: where the figures stand above, the sentences stand with the rule. */
  const facts = inWords ? [] : prompt.facts;
  const others = prompt.also.filter((one) => one.title !== title);
  return (
    <>
      {(facts.length > 0 || prompt.missing.length > 0) && (
        <ul className={styles.facts}>
          {facts.map((fact) => (
            <li key={fact}>{fact}</li>
          ))}
          {prompt.missing.map((fact) => (
            <li key={fact} className={styles.missing}>
              {fact}
            </li>
          ))}
        </ul>
      )}
      {others.length > 0 && (
        <ul className={styles.also}>
          {others.map((one) => (
            <li key={one.rule + one.title}>
              {one.title} {one.facts[0]}
            </li>
          ))}
        </ul>
      )}
      <RuleSource prompts={[prompt, ...prompt.also]} facts={inWords ? prompt.facts : []} policy={policy} />
    </>
  );
}

/** The rules behind a prompt: id and version of each, and every limit with the clinic's figure, its kind and source. */
function RuleSource({ prompts, facts, policy }: { prompts: readonly Prompt[]; facts: readonly string[]; policy: Policy }) {
  const rules = new Set(prompts.map(({ rule, ruleVersion }) => `“${rule.replaceAll('-', ' ')}”, version ${ruleVersion}`));
  const limits = [...new Set(prompts.flatMap((one) => one.limits))];
  return (
    <details className={styles.ruleSource}>
      <summary>{`Why: ${rules.size === 1 ? 'rule' : 'rules'} ${[...rules].join('; ')}`}</summary>
      {facts.length > 0 && <p>{facts.join(' ')}</p>}
      {limits.length === 0 ? (
        <p>This compares with no limit but its own dates.</p>
      ) : (
        <ul>
          {limits.map((name) => (
            <li key={name}>{limitInWords(name, policy)}</li>
          ))}
        </ul>
      )}
    </details>
  );
}

/** The deciding figures, large, each over what it is. */
function Figures({ figures }: { figures: NonNullable<Prompt['figures']> }) {
  return (
    <dl className={styles.figures}>
      {figures.map(({ value, label }) => (
        <div key={label}>
          <dt>{label}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}

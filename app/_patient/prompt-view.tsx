import clsx from 'clsx';
import { limitInWords } from '@/lib/limits/limit-in-words';
import type { Policy } from '@/lib/limits/policy';
import type { MergedPrompt } from '@/lib/prompts/decide-prompts';
import type { Prompt } from '@/lib/prompts/prompt';
import type { ScheduledDate } from '@/lib/schedule/scheduled-date';
import { addDays, type CalendarDay } from '@/lib/units/calendar-day';
import { ACT_WORDS, bookedAt, quickDays } from './after-acting';
import styles from './prompt.module.css';
import { PromptAnswers } from './prompt-answers';

type Props = {
  readonly prompt: MergedPrompt;
  readonly patientId: string;
  readonly today: CalendarDay;
  readonly mayAnswer: boolean;
  readonly first: boolean;
  /** The clinic's limits in force. */
  readonly policy: Policy;
  /** The dates of the schedule: the next visit among them is offered as a day to ask again. */
  readonly dates: readonly ScheduledDate[];
};

/** A prompt with its evidence: the sentence, the figures under it, the rule with its source, and the three answers. */
export function PromptView({ prompt, patientId, today, mayAnswer, first, policy, dates }: Props) {
  const refer = prompt.action === 'refer';
  const others = prompt.also.filter((one) => one.title !== prompt.title);
  /** Said once: as figures where the rule has them, its sentences then stand with the rule. */
  const figures = first ? prompt.figures : undefined;
  const facts = figures ? [] : prompt.facts;
  return (
    <article className={clsx(styles.prompt, first && styles.first)} aria-label={prompt.title}>
      <div>
        <h3 className={clsx(first && 'prompt-sentence', refer && styles.refer)}>{prompt.title}</h3>
        {prompt.begun && <p className={styles.begun}>Begun, not done yet.</p>}
        {figures && <Figures figures={figures} />}
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
        <RuleSource prompts={[prompt, ...prompt.also]} facts={figures ? prompt.facts : []} policy={policy} />
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

import type { MergedPrompt } from '@/lib/prompts/decide-prompts';
import type { Prompt } from '@/lib/prompts/prompt';
import { LIMITS } from '@/lib/record/limits';
import { addDays, type CalendarDay } from '@/lib/units/calendar-day';
import { ACT_WORDS } from './after-acting';
import { PromptAnswers } from './prompt-answers';

type Props = {
  readonly prompt: MergedPrompt;
  readonly patientId: string;
  readonly today: CalendarDay;
  readonly mayAnswer: boolean;
  readonly first: boolean;
};

/** A prompt with its evidence: the sentence, the figures under it, the rule with its source, and the three answers. */
export function PromptView({ prompt, patientId, today, mayAnswer, first }: Props) {
  const refer = prompt.action === 'refer';
  const others = prompt.also.filter((one) => one.title !== prompt.title);
  return (
    <article className={first ? 'prompt first' : 'prompt'} aria-label={prompt.title}>
      <div className="prompt-body">
        <h3 className={`${first ? 'prompt-sentence' : ''} ${refer ? 'refer' : ''}`}>{prompt.title}</h3>
        {first && prompt.figures && <Figures figures={prompt.figures} />}
        <ul className={first && prompt.figures ? 'facts in-words' : 'facts'}>
          {prompt.facts.map((fact) => (
            <li key={fact}>{fact}</li>
          ))}
          {prompt.missing.map((fact) => (
            <li key={fact} className="missing">
              {fact}
            </li>
          ))}
        </ul>
        {others.length > 0 && (
          <ul className="also">
            {others.map((one) => (
              <li key={one.rule + one.title}>
                {one.title} {one.facts[0]}
              </li>
            ))}
          </ul>
        )}
        <RuleSource prompt={prompt} />
      </div>
      {mayAnswer && (
        <PromptAnswers
          patientId={patientId}
          cause={prompt.cause}
          actWords={ACT_WORDS[prompt.action]}
          earliest={addDays(today, 1)}
          latest={addDays(today, 366)}
        />
      )}
    </article>
  );
}

/** The rule behind a prompt: id and version, and every limit with its value, kind and source. */
function RuleSource({ prompt }: { prompt: Prompt }) {
  return (
    <details className="rule-source">
      <summary>{`Rule “${prompt.rule.replaceAll('-', ' ')}”, version ${prompt.ruleVersion}`}</summary>
      {prompt.limits.length === 0 ? (
        <p>This rule compares with no limit but its own dates.</p>
      ) : (
        <ul>
          {prompt.limits.map((name) => {
            const limit = LIMITS[name];
            return <li key={name}>{`${limit.does}: default ${limit.value} ${limit.unit}, ${limit.kind}. ${limit.source}`}</li>;
          })}
        </ul>
      )}
    </details>
  );
}

/** The deciding figures, large, each over what it is. */
function Figures({ figures }: { figures: NonNullable<Prompt['figures']> }) {
  return (
    <dl className="figures">
      {figures.map(({ value, label }) => (
        <div key={label}>
          <dt>{label}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}

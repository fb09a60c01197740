import type { Policy } from '@/lib/limits/policy';
import type { MergedPrompt } from '@/lib/prompts/decide-prompts';
import { MOST_SHOWN } from '@/lib/prompts/decide-prompts';
import type { ScheduledDate } from '@/lib/schedule/scheduled-date';
import type { CalendarDay } from '@/lib/units/calendar-day';
import styles from './prompt.module.css';
import { PromptView } from './prompt-view';

type Props = {
  readonly prompts: readonly MergedPrompt[];
  readonly patientId: string;
  readonly today: CalendarDay;
  readonly mayAnswer: boolean;
  readonly nextVisit: string | null;
  /** Named where no prompt is open. */
  readonly stillOpen: readonly string[];
  readonly policy: Policy;
  readonly dates: readonly ScheduledDate[];
};

/** What should happen next, with its evidence; at most three prompts open, the rest behind one line. */
export function NextAction({ prompts, patientId, today, mayAnswer, nextVisit, stillOpen, policy, dates }: Props) {
  const [first, ...others] = prompts;
  const shown = others.slice(0, MOST_SHOWN - 1);
  const behind = others.slice(MOST_SHOWN - 1);
  const asked = { patientId, today, mayAnswer, policy, dates };
  return (
    <section className={styles.next} aria-labelledby="next-head">
      <h2 id="next-head" className={styles.nextMark}>
        <svg width="14" height="14" viewBox="0 0 14 14" aria-hidden="true">
          <path d="M7 1l6 6l-6 6l-6-6Z" />
        </svg>
        Next
      </h2>
      {first ? <PromptView prompt={first} {...asked} first /> : <Quiet nextVisit={nextVisit} stillOpen={stillOpen} />}
      {shown.length > 0 && (
        <details className={styles.morePrompts}>
          <summary>{`${shown.length === 1 ? 'One more' : `${shown.length} more`}: ${shown[0]?.title ?? ''}`}</summary>
          {shown.map((prompt) => (
            <PromptView key={prompt.cause} prompt={prompt} {...asked} first={false} />
          ))}
        </details>
      )}
      {behind.length > 0 && (
        <details className={styles.morePrompts}>
          <summary>{`${behind.length} less urgent`}</summary>
          {behind.map((prompt) => (
            <PromptView key={prompt.cause} prompt={prompt} {...asked} first={false} />
          ))}
        </details>
      )}
    </section>
  );
}

/** No prompt is open: what is open all the same, else that nothing is asked and when the next visit falls due. */
function Quiet({ nextVisit, stillOpen }: Pick<Props, 'nextVisit' | 'stillOpen'>) {
  if (stillOpen.length === 0) return <p className="prompt-sentence">{nextVisit ?? 'Nothing is asked today.'}</p>;
  return (
    <>
      <p className="prompt-sentence">No new question. Still open:</p>
      <ul className={styles.facts}>
        {stillOpen.map((one) => (
          <li key={one}>{one}</li>
        ))}
      </ul>
    </>
  );
}

import type { ReactNode } from 'react';
import type { Policy } from '@/lib/limits/policy';
import type { MergedPrompt } from '@/lib/prompts/decide-prompts';
import type { ScheduledDate } from '@/lib/schedule/scheduled-date';
import type { CalendarDay } from '@/lib/units/calendar-day';
import { PlanView } from './plan-view';
import styles from './prompt.module.css';

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
  readonly pieces: readonly { readonly piece: string; readonly pieceId: string }[];
  /** What the family asks for: before everything but a referral. */
  readonly asked: ReactNode;
};

/** What should happen next, as a plan for each limb; at most three steps open, the rest behind one line. */
export function NextAction({ prompts, patientId, today, mayAnswer, nextVisit, stillOpen, policy, dates, pieces, asked: byFamily }: Props) {
  const asked = { patientId, today, mayAnswer, policy, dates, pieces };
  /** A referral goes before everything. */
  const refers = prompts.some(({ action }) => action === 'refer');
  return (
    <section className={styles.next} aria-labelledby="next-head">
      <h2 id="next-head" className={styles.nextMark}>
        <svg width="14" height="14" viewBox="0 0 14 14" aria-hidden="true">
          <path d="M7 1l6 6l-6 6l-6-6Z" />
        </svg>
        Next
      </h2>
      {!refers && byFamily}
      {prompts.length > 0 ? <PlanView prompts={prompts} {...asked} first /> : <Quiet nextVisit={nextVisit} stillOpen={stillOpen} />}
      {refers && byFamily}
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

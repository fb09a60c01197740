import { ringWords, type WorkFacts } from '@/lib/record/work-facts';
import { interpreterParts, workParts } from '@/lib/summary/work-words';
import type { CalendarDay } from '@/lib/units/calendar-day';
import styles from './work.module.css';

type Props = { readonly facts: WorkFacts | null; readonly patientId: string; readonly today: CalendarDay };

/** Whom to call and what else is written down for the work, in one line, with the way to its form. */
export function WorkLine({ facts, patientId, today }: Props) {
  const ring = ringWords(facts);
  const parts = facts ? [...interpreterParts(facts), ...workParts(facts, today)] : [];
  const said = parts.length > 0 ? parts.join(' · ') : ring ? '' : 'Nobody to call and no referral is written down.';
  return (
    <p className={styles.line}>
      {ring ? <span className={styles.ring}>{ring}</span> : <strong>For the work</strong>} {ring && said ? `· ${said}` : said}{' '}
      <a href={`/patients/${patientId}/work`} data-soft="">
        {facts ? 'For the work' : 'Write it down'}
      </a>
    </p>
  );
}

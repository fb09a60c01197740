import { dayAndTime } from '@/app/_shell/day-and-time';
import type { KeptCaution } from '@/db/patients/cautions';
import type { CautionAbout } from '@/lib/cautions/caution-card';
import { CAUTION_CARDS } from '@/lib/cautions/caution-cards';
import { detailsInWords } from '@/lib/cautions/details-in-words';
import { LIFTED_CARD, UNASKED_CARD } from '@/lib/cautions/hold';
import { CARD_ANSWER_WORDS } from './card-answer-words';
import styles from './cautions.module.css';

/** Every answer ever given, newest first: who, when, the wording as it was asked, and the limits that stood on it. */
export function CautionHistory({ history, timeZone, about }: { history: readonly KeptCaution[]; timeZone: string; about: CautionAbout }) {
  const clock = dayAndTime(timeZone);
  return (
    <section aria-labelledby="caution-history-head">
      <h2 id="caution-history-head" className="section-head">
        Answers so far <span className="count">{history.length}</span>
      </h2>
      {history.length === 0 ? (
        <p className="nothing-yet">No card was answered yet.</p>
      ) : (
        <ol className={styles.cautionHistory}>
          {history.map((one) => (
            <li key={one.id}>
              <p>
                <b>{headOf(one)}</b>
                {` ${one.byName ?? 'Somebody who has left'}, ${clock.format(one.at)}${one.visitId ? ', for the visit then newest' : ''}.${one.words ? ` ${one.words}` : ''} ${detailsInWords(cardOf(one), one.figures, about)}`}
              </p>
              <details className="as-table">
                <summary>{`Wording ${one.cardVersion}, as it was asked`}</summary>
                <p className="secondary">{one.wording}</p>
              </details>
            </li>
          ))}
        </ol>
      )}
    </section>
  );
}

function cardOf({ card }: KeptCaution) {
  return CAUTION_CARDS.find(({ id }) => id === card);
}

function headOf(one: KeptCaution): string {
  if (one.card === LIFTED_CARD) return 'A hold was lifted.';
  if (one.card === UNASKED_CARD) return 'Handed over without asking.';
  return `${cardOf(one)?.title ?? one.card}: ${CARD_ANSWER_WORDS[one.answer]}.`;
}

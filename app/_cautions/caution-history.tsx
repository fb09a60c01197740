import { dayAndTime } from '@/app/_shell/day-and-time';
import type { KeptCaution } from '@/db/cautions';
import { CAUTION_CARDS } from '@/lib/cautions/caution-cards';
import { showDay } from '@/lib/units/calendar-day';
import { CARD_ANSWER_WORDS } from './card-answer-words';

/** Every answer ever given, newest first: who, when, the wording as it was asked, and the limits that stood on it. */
export function CautionHistory({ history, timeZone }: { history: readonly KeptCaution[]; timeZone: string }) {
  const clock = dayAndTime(timeZone);
  return (
    <section aria-labelledby="caution-history-head">
      <h2 id="caution-history-head" className="section-head">
        Answers so far <span className="count">{history.length}</span>
      </h2>
      {history.length === 0 ? (
        <p className="nothing-yet">No card was answered yet.</p>
      ) : (
        <ol className="caution-history">
          {history.map((one) => (
            <li key={one.id}>
              <p>
                <b>{`${CAUTION_CARDS.find(({ id }) => id === one.card)?.title ?? one.card}: ${CARD_ANSWER_WORDS[one.answer]}.`}</b>
                {` ${one.byName ?? 'Somebody who has left'}, ${clock.format(one.at)}${one.visitId ? ', for the visit then newest' : ''}.${one.words ? ` ${one.words}` : ''}${indexOf(one)}`}
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

function indexOf({ figures }: KeptCaution): string {
  if (figures?.abpi === undefined) return '';
  return ` Index ${figures.abpi}${figures.abpiDay ? ` of ${showDay(figures.abpiDay)}` : ''}.`;
}

'use client';

import { useActionState, useEffect, useRef } from 'react';
import { answerCautionsAction, type CautionFormState } from '@/app/_cautions/actions';
import { CardBox } from './card-box';
import styles from './cautions.module.css';
import type { ShownCard } from './shown-card';

type Props = {
  readonly patientId: string;
  readonly submissionId: string;
  readonly cards: readonly ShownCard[];
  readonly mayWrite: boolean;
  readonly today: string;
  /** Which answer lapses next, and when. */
  readonly next: string;
};

/** Standing cards come first, whatever their kind; a lapsed “no” has a place of its own and counts no more. */
const GROUPS: readonly { readonly head: string; readonly says: string; readonly of: (card: ShownCard) => boolean }[] = [
  { head: 'Stop', says: 'Orders and hand-overs are held', of: (card) => card.holds },
  { head: 'Answered “yes”', says: 'To be told to the prescriber', of: ({ standing, holds }) => standing === 'yes' && !holds },
  { head: 'Not asked or due', says: 'Nobody’s “no” yet', of: ({ standing }) => standing === 'not asked' || standing === 'due' },
  { head: 'Lapsed', says: 'An old answer no longer counts', of: ({ standing }) => standing === 'lapsed' },
];

/** Every card of a patient in one form: what stops, what is to be asked, what has lapsed, and below what counts. It posts without script. */
export function CautionForm({ patientId, submissionId, cards, mayWrite, today, next }: Props) {
  const [{ errors, typed }, send, busy] = useActionState<CautionFormState, FormData>(answerCautionsAction, { errors: {}, typed: null });
  const answered = cards.filter(({ standing }) => standing === 'answered');
  const open = cards.length > answered.length;
  const box = (card: ShownCard) => (
    <CardBox key={card.id} card={card} errors={errors} typed={typed ?? {}} mayWrite={mayWrite} today={today} />
  );
  const refused = Object.keys(errors).length;
  const refusedCards = cards.filter(({ id }) => isRefused(id, errors));
  const said = useRef<HTMLParagraphElement>(null);
  useEffect(() => {
    if (Object.keys(errors).length > 0) said.current?.focus();
  }, [errors]);
  return (
    <form action={send} noValidate className={styles.cautionForm}>
      <input type="hidden" name="patientId" value={patientId} />
      <input type="hidden" name="submissionId" value={submissionId} />
      {refused > 0 && (
        <p className="refused-box" role="alert" tabIndex={-1} ref={said}>
          <b>Nothing was kept yet.</b> {errors.form ?? 'What you typed is still there. Look at '}
          {!errors.form &&
            refusedCards.map(({ id, title }, index) => (
              <span key={id}>
                {index > 0 && ', '}
                <a href={`#${id}-card`}>{title}</a>
              </span>
            ))}
        </p>
      )}
      {!open && <p className="nothing-yet">Every card is answered for the latest visit.</p>}
      {GROUPS.map(({ head, says, of }) => {
        const own = cards.filter(of);
        return own.length === 0 ? null : (
          <section key={head} className={styles.cautionCards} aria-label={head}>
            <div className={styles.cautionHead}>
              <h2 className="section-head">
                {head} <span className="count">{own.length}</span>
              </h2>
              <span className="secondary">{says}</span>
            </div>
            {own.map(box)}
          </section>
        );
      })}
      {answered.length > 0 && <Answered cards={answered} next={next} errors={errors} box={box} />}
      {mayWrite && (
        <button type="submit" className="button main" aria-disabled={busy}>
          {busy ? 'Keeping…' : 'Keep the answers'}
        </button>
      )}
    </form>
  );
}

function isRefused(card: string, errors: Readonly<Record<string, string>>): boolean {
  return Object.keys(errors).some((name) => name.split('/')[0] === card);
}

type AnsweredProps = Pick<Props, 'cards' | 'next'> & {
  readonly errors: Readonly<Record<string, string>>;
  readonly box: (card: ShownCard) => React.ReactNode;
};

/** What counts, a sentence for each day and person; each card with its wording behind one line. */
function Answered({ cards, next, errors, box }: AnsweredProps) {
  const times = [...new Set(cards.map(({ asked }) => asked))];
  return (
    <section className={styles.cautionCards} aria-label="Answered">
      <div className={styles.cautionHead}>
        <h2 className="section-head">
          Answered <span className="count">{cards.length}</span>
        </h2>
        <span className="secondary">{next}</span>
      </div>
      {times.map((time) => (
        <p key={time}>
          <b>{`No, on ${time}: `}</b>
          {cards
            .filter(({ asked }) => asked === time)
            .map(({ title, last }) => (last.startsWith('Not known') ? `${title} (not known)` : title))
            .join(' · ')}
        </p>
      ))}
      <details className="as-table" open={cards.some(({ id }) => isRefused(id, errors))}>
        <summary>{`Answered, not due again: ${cards.length}`}</summary>
        <div className={styles.cautionCards}>{cards.map(box)}</div>
      </details>
    </section>
  );
}

'use client';

import { useActionState } from 'react';
import { answerCautionsAction, type CautionFormState } from '@/app/patients/[patientId]/cautions/actions';
import { CardBox, type ShownCard } from './card-box';

type Props = {
  readonly patientId: string;
  readonly submissionId: string;
  readonly cards: readonly ShownCard[];
  readonly mayWrite: boolean;
  readonly today: string;
};

/** Standing cards come first, whatever their kind. */
const GROUPS: readonly { readonly head: string; readonly of: (card: ShownCard) => boolean }[] = [
  { head: 'Answered “yes”: to be referred', of: (card) => card.present },
  { head: 'Asked at each visit', of: (card) => !card.present && card.eachVisit },
  { head: 'Asked once', of: (card) => !card.present && !card.eachVisit },
];

/** Every card of a patient in one form: what stands, what is to be asked, and below what was answered already. It posts without script. */
export function CautionForm({ patientId, submissionId, cards, mayWrite, today }: Props) {
  const [{ errors, typed }, send, busy] = useActionState<CautionFormState, FormData>(answerCautionsAction, { errors: {}, typed: null });
  const first = cards.filter((card) => card.present || card.toAsk);
  const answered = cards.filter((card) => !card.present && !card.toAsk);
  const box = (card: ShownCard) => (
    <CardBox key={card.id} card={card} errors={errors} typed={typed ?? {}} mayWrite={mayWrite} today={today} />
  );
  const refused = Object.keys(errors).length;
  return (
    <form action={send} noValidate className="caution-form">
      <input type="hidden" name="patientId" value={patientId} />
      <input type="hidden" name="submissionId" value={submissionId} />
      {refused > 0 && (
        <p className="refused-box" role="alert">
          <b>Nothing was kept yet.</b> {errors.form ?? 'Look at the cards marked below; what you typed is still there.'}
        </p>
      )}
      {first.length === 0 && <p className="nothing-yet">Every card is answered for the latest visit.</p>}
      {GROUPS.map(({ head, of }) => {
        const cards = first.filter(of);
        return cards.length === 0 ? null : (
          <section key={head} className="caution-cards" aria-label={head}>
            <h2 className="section-head">
              {head} <span className="count">{cards.length}</span>
            </h2>
            {cards.map(box)}
          </section>
        );
      })}
      {answered.length > 0 && (
        <details className="as-table" open={answered.some((card) => errors[card.id] || errors[`${card.id}/words`])}>
          <summary>{`Answered, not due again: ${answered.length}`}</summary>
          <div className="caution-cards">{answered.map(box)}</div>
        </details>
      )}
      {mayWrite && (
        <button type="submit" className="button main" aria-disabled={busy}>
          {busy ? 'Keeping…' : 'Keep the answers'}
        </button>
      )}
    </form>
  );
}

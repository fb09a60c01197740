'use client';

import { useActionState } from 'react';
import { learntInWords, reasonOfLearning, showFactor } from '@/lib/summary/learnt-scale';
import { keepScaleAction, learnScaleAction, type ScaleState } from './actions';

/** The clinic's scale of error, learnt from its record when a lead asks, and kept when a lead says so. */
export function LearntScalePanel({ now }: { readonly now: number }) {
  const [{ learnt }, learn, busy] = useActionState<ScaleState>(learnScaleAction, { learnt: null });
  const [{ refused }, keep, keeping] = useActionState<ScaleState, FormData>(keepScaleAction, { learnt: null });
  return (
    <section className="panel" aria-labelledby="learnt-head">
      <h2 id="learnt-head">How well this clinic measures</h2>
      <p className="secondary">
        {`Errors of the tape are assumed as above. This clinic’s own are learnt from limbs that were measured three times or more: one factor on the variance of all of them, ${showFactor(now)} now. Above 1 errors are larger than assumed.`}
      </p>
      <form action={learn}>
        <button type="submit" className="button" aria-disabled={busy}>
          {busy ? 'Reading the record…' : 'Learn from our record'}
        </button>
      </form>
      <div aria-live="polite">
        {learnt && learnt.n === 0 && <p>No limb has been measured three times yet: there is nothing to learn from.</p>}
        {learnt && learnt.n > 0 && (
          <>
            <p>{`${learntInWords(learnt)}.`}</p>
            {learnt.n < 30 && <p className="secondary">Below thirty limbs the figure is drawn towards 1.</p>}
            {learnt.measurers.length > 0 && (
              <ul>
                {learnt.measurers.map((one) => (
                  <li key={one.measurer}>{`${one.measurer} alone: ${learntInWords(one)}.`}</li>
                ))}
              </ul>
            )}
            <form action={keep}>
              <input type="hidden" name="variance" value={showFactor(learnt.variance)} />
              <input type="hidden" name="why" value={reasonOfLearning(learnt, learnt.day)} />
              <button type="submit" className="button main" aria-disabled={keeping}>
                {`Keep ${showFactor(learnt.variance)} as this clinic’s factor`}
              </button>
            </form>
            <p className="refusal" role="alert">
              {refused}
            </p>
          </>
        )}
      </div>
    </section>
  );
}

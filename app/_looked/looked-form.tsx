'use client';

import { useActionState } from 'react';
import { NotSaved } from '@/app/_form/not-saved';
import { typedBoxes } from '@/app/_form/typed-boxes';
import type { ObservedKind } from '@/lib/observations/kind';
import { LONGEST_SEEN } from '@/lib/observations/observation';
import { type LookedFormState, saveLookedAction } from './actions';
import styles from './looked.module.css';

type Props = {
  readonly patientId: string;
  readonly submissionId: string;
  readonly kind: ObservedKind;
  readonly today: string;
  readonly limbs: readonly string[];
  readonly start: Readonly<Record<string, string>>;
  /** The observation that is corrected; null for a new one. */
  readonly corrected: { readonly observationId: string; readonly number: number } | null;
};

const asChoices = (words: readonly string[]) => words.map((one) => ({ key: one, words: one }));

/** One kind of thing that is looked at, as a form: its figures, its side or place, words. */
export function LookedForm({ patientId, submissionId, kind, today, limbs, start, corrected }: Props) {
  const [{ errors, typed }, send, busy] = useActionState<LookedFormState, FormData>(saveLookedAction, { errors: {}, typed: null });
  const { text, choice } = typedBoxes(typed ?? start, errors, (box) => `${kind.id}-${box}`);
  const placed = kind.where === 'place' || kind.where === 'site';
  return (
    <form
      action={send}
      noValidate
      className="form"
      aria-label={corrected ? `Correct: ${kind.label}` : kind.label}
      key={typed ? 'typed' : 'start'}
    >
      <input type="hidden" name="patientId" value={patientId} />
      <input type="hidden" name="submissionId" value={submissionId} />
      <input type="hidden" name="kind" value={kind.id} />
      {corrected && <input type="hidden" name="observationId" value={corrected.observationId} />}
      {corrected && <input type="hidden" name="number" value={corrected.number} />}
      <NotSaved errors={errors} />
      <p>{kind.asks}</p>
      <div className={styles.grid}>
        {text('day', 'Day', undefined, { type: 'date', max: today })}
        {kind.where === 'side' && choice('side', 'Side', asChoices(['left', 'right']), 'Choose one')}
        {placed && choice('limb', 'Limb', asChoices(limbs), 'Choose one')}
        {placed &&
          text('along', 'How far up, %', '0 at the ankle or wrist, 100 at the fold.', { type: 'number', min: 0, max: 100, step: 5 })}
        {kind.choices.length > 0 &&
          choice(
            'choice',
            kind.where === 'place' ? 'What' : kind.where === 'site' ? 'Posture' : 'How',
            asChoices(kind.choices),
            'Choose one',
          )}
        {kind.items.map((item) => (
          <div key={item.id}>
            {text(`item-${item.id}`, item.unit ? `${item.label}, ${item.unit}` : item.label, undefined, {
              inputMode: 'decimal',
              maxLength: 12,
            })}
          </div>
        ))}
        {text('words', 'In words', undefined, { maxLength: LONGEST_SEEN })}
        {corrected && text('reason', 'Why it is changed', 'Stands in the history; the state before stays readable.', { maxLength: 200 })}
      </div>
      <div className="actions">
        <button type="submit" className="button main" aria-disabled={busy}>
          {corrected ? 'Save the correction' : `Save ${kind.label.toLowerCase()}`}
        </button>
      </div>
    </form>
  );
}

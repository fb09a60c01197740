'use client';

import { useActionState } from 'react';
import { NotSaved } from '@/app/_form/not-saved';
import { typedBoxes } from '@/app/_form/typed-boxes';
import { OWN_KIND_BOUNDS } from '@/lib/observations/catalogue';
import { type OwnKindsState, saveOwnKindsAction } from './actions';
import styles from './clinic-looked.module.css';

type Props = { readonly start: Readonly<Record<string, string>>; readonly standing: number };

/** What the clinic adds to what is looked at: a row each, two more to fill. Name, unit and range of one that stands stay. */
export function OwnKindsForm({ start, standing }: Props) {
  const [{ errors, typed }, send, busy] = useActionState<OwnKindsState, FormData>(saveOwnKindsAction, { errors: {}, typed: null });
  const { text, tick } = typedBoxes(typed ?? start, errors);
  const rows = Array.from({ length: Math.min(standing + 2, OWN_KIND_BOUNDS.most) }, (_, place) => place);
  return (
    <form className="panel form" action={send} noValidate aria-label="Added by the clinic" key={typed ? 'typed' : 'start'}>
      <input type="hidden" name="standing" value={standing} />
      <NotSaved errors={errors} />
      {rows.map((place) => {
        const readOnly = place < standing;
        const fixed = { readOnly, maxLength: OWN_KIND_BOUNDS.unit };
        return (
          <fieldset key={place} className={styles.row}>
            <legend>{place < standing ? start[`label${place}`] : 'New'}</legend>
            {text(`label${place}`, `Name, ${place + 1}`, undefined, { readOnly, maxLength: OWN_KIND_BOUNDS.label })}
            {text(`unit${place}`, `Unit, ${place + 1}`, undefined, fixed)}
            {text(`low${place}`, `From, ${place + 1}`, undefined, fixed)}
            {text(`high${place}`, `To, ${place + 1}`, undefined, fixed)}
            {text(`least${place}`, `Least change, ${place + 1}`, 'Less is within error.', { maxLength: 12 })}
            {place < standing && tick(`asked${place}`, `Asked, ${place + 1}`, 'Is asked')}
          </fieldset>
        );
      })}
      <div className="actions">
        <button type="submit" className="button main" aria-disabled={busy}>
          Save
        </button>
      </div>
    </form>
  );
}

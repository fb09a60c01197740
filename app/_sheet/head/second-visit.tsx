import type { Known } from '@/lib/entry/entry-data';
import { secondVisit } from '@/lib/entry/visit-question';
import type { VisitForm } from '@/lib/visit-form/visit-form';
import styles from './set-up.module.css';

type SecondVisitProps = { readonly form: VisitForm; readonly known: Known; readonly onField: (change: Partial<VisitForm>) => void };

const CHOICES = [
  ['second-measuring', 'Measured again, to see how well the tape repeats'],
  ['after-treatment', 'Measured after a treatment of that day'],
] as const;

/** Asked where the same limb was measured at another visit of the day: the two are told apart on purpose, never compared by mistake. */
export function SecondVisit({ form, known, onField }: SecondVisitProps) {
  const question = secondVisit(form, known);
  if (!question) return null;
  return (
    <fieldset className={styles.secondVisit} id="box-occasion">
      <legend>{`◇ ${question.message}`}</legend>
      {CHOICES.map(([occasion, words]) => (
        <label key={occasion}>
          <input type="radio" name="occasion" checked={form.occasion === occasion} onChange={() => onField({ occasion })} />
          {words}
        </label>
      ))}
    </fieldset>
  );
}

import { typedBoxes } from '@/app/_form/typed-boxes';
import styles from './cautions.module.css';
import type { ShownHold } from './read-hand-over';

type Props = {
  readonly patientId: string;
  readonly hold: ShownHold;
  readonly typed: Readonly<Record<string, string>>;
  readonly errors: Readonly<Record<string, string>>;
  /** Tells the boxes of several forms of a page apart. */
  readonly form: string;
};

/** What holds a piece back: each stop with the three boxes that lift it, and the cautions not answered for this hand-over. Nothing while none does. */
export function HoldBoxes({ patientId, hold, typed, errors, form }: Props) {
  const { stops, unasked } = hold;
  if (stops.length === 0 && unasked.length === 0) return null;
  const { text, words } = typedBoxes(typed, errors, (box) => `${form}-${box}`);
  const cautions = (
    <a href={`/patients/${patientId}/cautions`} target="_blank" rel="noreferrer">
      Open the cautions
    </a>
  );
  return (
    <>
      {stops.map((stop, index) => (
        <fieldset key={stop.key} className={styles.holdStop}>
          <legend>{`Stop: ${stop.title}`}</legend>
          <input type="hidden" name={`stop${index}`} value={stop.key} />
          <p>{stop.message}</p>
          <p className="secondary">Held until the card is answered anew, or lifted here with all three. {cautions}</p>
          <div className="two-columns">
            {text(`prescriber${index}`, 'Prescriber who decided', undefined, { maxLength: 300 })}
            {text(`word${index}`, 'What they said, when and how', undefined, { maxLength: 300 })}
          </div>
          {text(`reason${index}`, 'Why it goes on', 'Kept with your name and the hour.', { maxLength: 300 })}
        </fieldset>
      ))}
      {unasked.length > 0 && (
        <fieldset className={styles.holdUnasked}>
          <legend>
            {unasked.length === 1
              ? 'One caution is not answered for this hand-over'
              : `${unasked.length} cautions are not answered for this hand-over`}
          </legend>
          <details className={styles.cautionSource}>
            <summary>Which</summary>
            <ul>
              {unasked.map((one) => (
                <li key={one}>{one}</li>
              ))}
            </ul>
          </details>
          <p className="secondary">Ask them now: {cautions}. Or</p>
          {words('unaskedWhy', 'Why they were not asked', undefined, 2)}
        </fieldset>
      )}
    </>
  );
}

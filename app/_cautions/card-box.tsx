import clsx from 'clsx';
import type { CardBox as Box } from '@/lib/cautions/caution-card';
import { CARD_ANSWERS } from '@/lib/record/caution-answer';
import { CARD_ANSWER_WORDS } from './card-answer-words';
import styles from './cautions.module.css';
import type { ShownCard } from './shown-card';

type BoxProps = {
  readonly card: ShownCard;
  readonly errors: Readonly<Record<string, string>>;
  readonly typed: Readonly<Record<string, string>>;
  readonly mayWrite: boolean;
  readonly today: string;
};

/** So many boxes stand beside the text of a card; more take the whole width below it. */
const MOST_BESIDE = 4;

/** One card: its question, what follows from “yes”, where it comes from, the last answer, and the boxes to answer it. Nothing is answered beforehand. */
export function CardBox({ card, errors, typed, mayWrite, today }: BoxProps) {
  const { id, standing } = card;
  const words: Box = {
    name: 'words',
    kind: 'text',
    label: standing === 'yes' ? 'What has changed, in a few words' : 'In a few words, if there is more to say',
  };
  const wide = card.boxes.length > MOST_BESIDE;
  const boxes = (
    <div className={clsx(styles.cautionBoxes, wide && styles.wide)}>
      {[...card.boxes, words].map((box) => (
        <OneBox key={box.name} id={`${id}/${box.name}`} box={box} typed={typed} errors={errors} today={today} />
      ))}
    </div>
  );
  return (
    <fieldset
      className={clsx(`panel ${styles.cautionCard}`, card.holds && styles.standing)}
      id={`${id}-card`}
      data-standing={standing}
      aria-describedby={`${id}-refusal`}
    >
      <legend>
        <StandingMark standing={standing} />
        {card.title}
      </legend>
      <div className={styles.cautionText}>
        <p className={styles.cautionQuestion}>{card.question}</p>
        <p>{`Yes: ${card.ifPresent}`}</p>
        <p className="secondary">{card.reasons}</p>
        <details className={styles.cautionSource}>
          <summary>Source and limits</summary>
          <p>{card.source}</p>
          <ul>
            {card.limits.map((one) => (
              <li key={one}>{one}</li>
            ))}
          </ul>
        </details>
      </div>
      <div className={styles.cautionAnswer}>
        <p className={styles.cautionLast}>{card.last}</p>
        {mayWrite && (
          <>
            <span className="choices">
              {CARD_ANSWERS.map((answer) => (
                <label className="choice" key={answer}>
                  <input type="radio" name={id} value={answer} defaultChecked={typed[id] === answer} />
                  {CARD_ANSWER_WORDS[answer]}
                </label>
              ))}
            </span>
            <span className="refusal" id={`${id}-refusal`}>
              {errors[id]}
            </span>
            {!wide && boxes}
          </>
        )}
      </div>
      {mayWrite && wide && boxes}
    </fieldset>
  );
}

type OneProps = Pick<BoxProps, 'typed' | 'errors' | 'today'> & { readonly id: string; readonly box: Box };

function OneBox({ id, box, typed, errors, today }: OneProps) {
  const dom = id.replace('/', '-');
  const wiring = { id: dom, name: id, 'aria-invalid': Boolean(errors[id]), 'aria-describedby': `${dom}-hint ${dom}-refusal` };
  const label = box.kind === 'number' && box.unit !== '' ? `${box.label}, ${box.unit}` : box.label;
  return (
    <div className={clsx('field', box.name === 'words' && styles.cautionWords)}>
      <label htmlFor={dom}>{label}</label>
      {box.hint && (
        <span className="hint" id={`${dom}-hint`}>
          {box.hint}
        </span>
      )}
      {box.kind === 'choice' ? (
        <select {...wiring} key={typed[id]} defaultValue={typed[id] ?? ''}>
          <option value="">not said</option>
          {box.choices.map(({ key, words }) => (
            <option key={key} value={key}>
              {words}
            </option>
          ))}
        </select>
      ) : (
        <input
          {...wiring}
          type={box.kind === 'day' ? 'date' : 'text'}
          max={box.kind === 'day' && !box.ahead ? today : undefined}
          inputMode={box.kind === 'number' ? 'decimal' : undefined}
          defaultValue={typed[id]}
          maxLength={500}
          autoComplete="off"
        />
      )}
      <span className="refusal" id={`${dom}-refusal`}>
        {errors[id]}
      </span>
    </div>
  );
}

const MARKS: Partial<Record<ShownCard['standing'], string>> = {
  'not asked': 'M3.5 3.5h11v11h-11z',
  due: 'M3.5 3.5h11v11h-11z',
  lapsed: 'M4 3h10L4 15h10z',
};

/** An empty box where it is due, an hourglass where a “no” has lapsed; the words say it too. */
function StandingMark({ standing }: { readonly standing: ShownCard['standing'] }) {
  const path = MARKS[standing];
  return path ? (
    <svg className={styles.cautionMark} viewBox="0 0 18 18" width="18" height="18" aria-hidden="true">
      <path d={path} />
    </svg>
  ) : null;
}

import { CARD_ANSWERS } from '@/lib/record/caution-answer';
import { CARD_ANSWER_WORDS } from './card-answer-words';

/** One card as the screen shows it. */
export type ShownCard = {
  readonly id: string;
  readonly title: string;
  readonly question: string;
  readonly ifPresent: string;
  readonly reasons: string;
  readonly source: string;
  readonly kind: string;
  /** The last answer in words, or why there is none. */
  readonly last: string;
  readonly present: boolean;
  readonly toAsk: boolean;
  readonly eachVisit: boolean;
  /** Asks for an ankle–brachial index and its day. */
  readonly index: boolean;
};

type BoxProps = {
  readonly card: ShownCard;
  readonly errors: Readonly<Record<string, string>>;
  readonly typed: Readonly<Record<string, string>>;
  readonly mayWrite: boolean;
  readonly today: string;
};

/** One card: its question, what follows from “yes”, where it comes from, the last answer, and the boxes to answer it. Nothing is answered beforehand. */
export function CardBox({ card, errors, typed, mayWrite, today }: BoxProps) {
  const { id } = card;
  const text = (box: string, label: string, type: 'text' | 'date' = 'text') => (
    <label className="field">
      <span>{label}</span>
      <input
        type={type}
        name={`${id}/${box}`}
        defaultValue={typed[`${id}/${box}`]}
        maxLength={500}
        max={type === 'date' ? today : undefined}
        autoComplete="off"
        inputMode={box === 'abpi' ? 'decimal' : undefined}
        aria-invalid={Boolean(errors[`${id}/${box}`])}
        aria-describedby={`${id}-${box}-refusal`}
      />
      <span className="refusal" id={`${id}-${box}-refusal`}>
        {errors[`${id}/${box}`]}
      </span>
    </label>
  );
  return (
    <fieldset className={card.present ? 'panel caution-card standing' : 'panel caution-card'} aria-describedby={`${id}-refusal`}>
      <legend>{card.title}</legend>
      <div className="caution-text">
        <p className="caution-question">{card.question}</p>
        <p>{`Yes: ${card.ifPresent}`}</p>
        <p className="secondary">{`${card.last} ${card.reasons}`}</p>
        <details className="caution-source">
          <summary>Source</summary>
          <p>{`${card.kind}: ${card.source}`}</p>
        </details>
      </div>
      {mayWrite && (
        <div className="caution-answer">
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
          <div className="caution-boxes">
            {card.index && text('abpi', 'Lowest ankle–brachial index of the leg')}
            {card.index && text('abpiDay', 'Measured on', 'date')}
            {text('words', card.present ? 'What has changed, in a few words' : 'In a few words, if there is more to say')}
          </div>
        </div>
      )}
    </fieldset>
  );
}

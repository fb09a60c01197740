import questionCardStyles from '@/app/_sheet/table/question-card.module.css';
import type { Reading } from '@/lib/outcome';
import setUpStyles from './set-up.module.css';

type BoxProps<T> = {
  readonly id: string;
  readonly label: string;
  readonly text: string;
  readonly read: (text: string) => Reading<T>;
  /** What was read, in both units. */
  readonly echo: (value: T) => string;
  /** A question about the figure; it stops nothing. */
  readonly asked?: string | undefined;
  /** Answers to that question: keep the figure, or take the one that would fit. */
  readonly onKeep?: () => void;
  readonly wouldFit?: string | undefined;
  readonly onType: (text: string) => void;
  readonly onEnter?: () => void;
};

/** One measured figure beside the ladder, such as a height: label, box, and below it how it was read, or why it cannot be. */
export function MeasuredBox<T>({ id, label, text, read, echo, asked, onType, onEnter, onKeep, wouldFit }: BoxProps<T>) {
  const reading = text.trim() === '' ? undefined : read(text);
  const refused = reading && reading.kind !== 'read' ? reading.reason : '';
  return (
    <div className={setUpStyles.measuredBox}>
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        type="text"
        inputMode="decimal"
        autoComplete="off"
        maxLength={60}
        value={text}
        aria-invalid={refused !== ''}
        aria-describedby={`${id}-reading ${id}-asked`}
        onChange={(event) => onType(event.target.value)}
        onKeyDown={(event) => {
          if (event.key !== 'Enter') return;
          event.preventDefault();
          onEnter?.();
        }}
      />
      <span className={refused ? 'refusal' : setUpStyles.echo} id={`${id}-reading`}>
        {reading?.kind === 'read' ? echo(reading.value) : refused}
      </span>
      <span className="guess" id={`${id}-asked`} role="status">
        {asked && `◇ ${asked}`}
      </span>
      {asked && onKeep && (
        <span className={`${setUpStyles.answers} ${questionCardStyles.answers}`}>
          {wouldFit && (
            <button type="button" className="button" onClick={() => onType(wouldFit)}>
              {`Change to ${wouldFit}`}
            </button>
          )}
          <button type="button" className="button" onClick={onKeep}>
            Keep <span className="visually-hidden">{label}</span>
          </button>
        </span>
      )}
    </div>
  );
}

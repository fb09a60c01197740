import type { OpenQuestion } from '@/lib/entry/typed-view';
import { type Doubt, questionAndReason } from '@/lib/ladder/doubt';
import { slipText } from '@/lib/ladder/slip';
import type { LengthUnit, TypedLength } from '@/lib/units/length';
import { showLength, showTapedLength } from '@/lib/units/show-length';
import styles from './question-card.module.css';
import { Diamond } from './rung-reading';

/** What can be answered: type it again, take what would fit, keep it as it is. */
export type Answer = 'again' | 'fits' | 'keep';

type CardProps = {
  readonly question: OpenQuestion;
  readonly girth: TypedLength | undefined;
  readonly unit: LengthUnit;
  /** How many other questions are open. */
  readonly more: number;
  readonly onAnswer: (answer: Answer) => void;
  readonly onMore: () => void;
};

/** One question with its reasons and its answers; each has a key that works while a cell has focus. */
export function QuestionCard({ question, girth, unit, more, onAnswer, onMore }: CardProps) {
  const { doubt } = question;
  const { question: asked, reason } = questionAndReason(doubt);
  const fits = fitsWords(doubt, unit);
  return (
    <section className={styles.question} aria-label={asked} data-question="">
      <p className={styles.questionAsked}>
        <Diamond /> <b>{asked}</b>
      </p>
      {reason && <p className={styles.questionReason}>{reason}</p>}
      <div className={styles.answers}>
        <Choice words={againWords(doubt)} hint="Esc" onClick={() => onAnswer('again')} />
        {fits && <Choice words={fits} hint="S" onClick={() => onAnswer('fits')} />}
        <Choice words={keepWords(doubt, girth, unit)} hint="K" onClick={() => onAnswer('keep')} />
        {more > 0 && <Choice words={more === 1 ? 'The other question' : `Next of ${more + 1} questions`} hint="Q" onClick={onMore} />}
      </div>
    </section>
  );
}

function Choice({ words, hint, onClick }: { words: string; hint: string; onClick: () => void }) {
  return (
    <button className="button" type="button" onClick={onClick} onPointerDown={(event) => event.preventDefault()}>
      {words}
      <kbd>{hint}</kbd>
    </button>
  );
}

function againWords(doubt: Doubt): string {
  if (doubt.kind === 'ladder-length' || doubt.kind === 'body-size') return 'Type the lengths again';
  if (doubt.kind === 'zero-direction') return 'Look at zero and direction';
  if (doubt.kind === 'shifted-rungs' || doubt.distanceMm === null) return 'Look again';
  return 'Type it again';
}

/** The answer that sets right what the question guesses, or none. */
function fitsWords(doubt: Doubt, unit: LengthUnit): string | undefined {
  if (doubt.kind === 'shifted-rungs') return doubt.moveBy === 1 ? 'Move them one rung on' : 'Move them one rung back';
  if (doubt.kind === 'swapped-neighbours') return 'Exchange the two';
  if (doubt.kind === 'sides-swapped') return 'Exchange left and right';
  if (doubt.kind === 'inch-centimetre' && doubt.distanceMm === null) return 'Change the unit';
  if (doubt.wouldFitMm === undefined) return undefined;
  return `It is ${shown(doubt.wouldFitMm, unit)}`;
}

function shown(girthMm: number, unit: LengthUnit): string {
  return unit === 'cm' ? slipText(girthMm, unit) : showTapedLength(girthMm, unit);
}

function keepWords(doubt: Doubt, girth: TypedLength | undefined, unit: LengthUnit): string {
  if (doubt.distanceMm === null || doubt.kind === 'shifted-rungs' || doubt.kind === 'swapped-neighbours') return 'Keep all as measured';
  return girth ? `Keep ${showLength(girth.nm / 1e6, unit, 16)} as measured` : 'Keep as measured';
}

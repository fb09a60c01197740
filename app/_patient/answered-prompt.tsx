import { todayIn } from '@/app/_auth/today';
import { openAgainAction } from '@/app/_patient/actions';
import type { KnownAnswer } from '@/db/worklist/prompt-answers';
import type { MergedPrompt } from '@/lib/prompts/decide-prompts';
import { showDay } from '@/lib/units/calendar-day';
import { withoutFullStop } from '@/lib/units/without-full-stop';
import { asItWasAsked } from './as-it-was-asked';
import styles from './schedule.module.css';

const WORDS: Readonly<Record<KnownAnswer['answer'], string>> = {
  act: 'Done',
  begun: 'Begun',
  'not-now': 'Not now',
  'not-for-this-patient': 'Not for this patient',
  'open-again': 'Opened again',
};

type Props = {
  readonly prompt: MergedPrompt;
  readonly answer: KnownAnswer;
  readonly patientId: string;
  readonly mayWrite: boolean;
  readonly timeZone: string;
};

/** A prompt that an answer keeps at rest, who gave it and why, and the way to open it again. */
export function AnsweredPrompt({ prompt, answer, patientId, mayWrite, timeZone }: Props) {
  return (
    <li>
      <strong>{prompt.title}</strong>
      <span className="second-line">{prompt.facts.join(' ')}</span>
      <span className="second-line">{answerInWords(answer, timeZone)}</span>
      {mayWrite && (
        <form action={openAgainAction}>
          <input type="hidden" name="patientId" value={patientId} />
          <input type="hidden" name="cause" value={prompt.cause} />
          <button className="button" type="submit" aria-label={`Open again: ${prompt.title}`}>
            Open again
          </button>
        </form>
      )}
    </li>
  );
}

/** One answer as it was given: what, to which proposal, by whom, when and why, with the rule, its version and the facts it stood on. */
export function AnswerRow({ answer, timeZone }: { answer: KnownAnswer; timeZone: string }) {
  const { title, facts } = asItWasAsked(answer);
  return (
    <li>
      <span className={styles.answerWord}>{answerInWords(answer, timeZone)}</span>
      {title && <span className="second-line">{`To: ${title}`}</span>}
      {facts.length > 0 && <span className="second-line">{facts.join(' ')}</span>}
      <span className="second-line">{`Rule “${answer.rule.replaceAll('-', ' ')}”, version ${answer.ruleVersion}.`}</span>
    </li>
  );
}

function answerInWords({ answer, until, reason, byName, at }: KnownAnswer, timeZone: string): string {
  const what = until ? `${WORDS[answer]}, ask again on ${showDay(until)}` : WORDS[answer];
  const why = reason ? `: ${withoutFullStop(reason)}` : '';
  return `${what}${why}. ${byName ?? 'Someone'}, ${showDay(todayIn(timeZone, at))}.`;
}

import { todayIn } from '@/app/_auth/today';
import { asItWasAsked } from '@/app/_patient/as-it-was-asked';
import type { KnownAnswer } from '@/db/worklist/prompt-answers';
import { showDay } from '@/lib/units/calendar-day';
import { withoutFullStop } from '@/lib/units/without-full-stop';

/** How many decisions the report lists, the newest; older ones are counted. */
const MOST = 12;

const WORDS: Readonly<Record<KnownAnswer['answer'], string>> = {
  act: 'done',
  begun: 'begun',
  'not-now': 'not now',
  'not-for-this-patient': 'not for this patient',
  'open-again': 'opened again',
};

/** What the therapist decided on what was proposed: which, by whom, when and why. */
export function DecisionsSection({ answers, timeZone }: { answers: readonly KnownAnswer[]; timeZone: string }) {
  const shown = [...answers].reverse().slice(0, MOST);
  return (
    <section>
      <h3>Decisions</h3>
      {shown.length === 0 ? (
        <p>No answer to a prompt is on record.</p>
      ) : (
        <ul>
          {shown.map((one) => (
            <li key={one.answerId}>
              {`${showDay(todayIn(timeZone, one.at))}, ${one.byName ?? 'someone'}: ${withoutFullStop(titleOf(one))} — ${WORDS[one.answer]}${one.until ? ` until ${showDay(one.until)}` : ''}. ${one.reason ? `Why: ${withoutFullStop(one.reason)}.` : 'No reason was given.'}`}
            </li>
          ))}
        </ul>
      )}
      {answers.length > MOST && <p>{`${answers.length - MOST} older answers are not listed.`}</p>}
    </section>
  );
}

/** The title of the prompt as it was kept with the answer, or the name of its rule. */
function titleOf(answer: KnownAnswer): string {
  return asItWasAsked(answer).title ?? `rule “${answer.rule.replaceAll('-', ' ')}”`;
}

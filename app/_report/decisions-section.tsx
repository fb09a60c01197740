import { todayIn } from '@/app/_session/today';
import type { KeptAnswer } from '@/db/prompt-answers';
import { showDay } from '@/lib/units/calendar-day';

/** How many decisions the report lists, the newest; older ones are counted. */
const MOST = 12;

const WORDS: Readonly<Record<KeptAnswer['answer'], string>> = {
  act: 'acted on',
  'not-now': 'not now',
  'not-for-this-patient': 'not for this patient',
  'open-again': 'opened again',
};

/** What the therapist decided on what was proposed: which, by whom, when and why. */
export function DecisionsSection({ answers, timeZone }: { answers: readonly KeptAnswer[]; timeZone: string }) {
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
              {`${showDay(todayIn(timeZone, one.at))}, ${one.byName ?? 'someone'}: ${titleOf(one)} — ${WORDS[one.answer]}${one.until ? ` until ${showDay(one.until)}` : ''}. ${one.reason ? `Why: ${one.reason}` : 'No reason was given.'}`}
            </li>
          ))}
        </ul>
      )}
      {answers.length > MOST && <p>{`${answers.length - MOST} older answers are not listed.`}</p>}
    </section>
  );
}

/** The title of the prompt as it was kept with the answer, or the name of its rule. */
function titleOf({ inputs, rule }: KeptAnswer): string {
  const title = typeof inputs === 'object' && inputs !== null && 'title' in inputs ? inputs.title : null;
  return typeof title === 'string' ? title : `rule “${rule.replaceAll('-', ' ')}”`;
}

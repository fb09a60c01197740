import { CARD_ANSWER_WORDS } from '@/app/_cautions/card-answer-words';
import { cautionAbout } from '@/app/_cautions/caution-about';
import type { PatientAnalysis } from '@/lib/analysis/analyse-patient';
import { cardStates, cautionLine } from '@/lib/cautions/caution-cards';
import { showDay } from '@/lib/units/calendar-day';

/** Cautions asked, with the answer that holds and its day; those answered “yes” first. */
export function CautionsSection({ analysis }: { analysis: PatientAnalysis }) {
  const states = cardStates(cautionAbout(analysis));
  const answered = states.filter(({ answer }) => answer !== undefined);
  return (
    <section>
      <h3>Cautions asked</h3>
      <p>{cautionLine(states)}</p>
      {answered.length > 0 && (
        <ul>
          {answered.map(({ card, answer, standing, toAsk }) => (
            <li key={card.id}>
              {answer &&
                `${card.title}: ${CARD_ANSWER_WORDS[answer.answer].toLowerCase()}, ${showDay(answer.day)}${answer.words ? `. ${answer.words}` : ''}${standing === 'lapsed' ? '; lapsed, counts no more' : toAsk ? '; to be asked again' : ''}`}
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

import { chooseZeroAction } from '@/app/_result/actions';
import { ColumnHeads } from '@/app/_shell/column-heads';
import { shiftInWords } from '@/lib/alignment/shift-in-words';
import { signedPct } from '@/lib/prompts/show-figures';
import { VERDICT_WORDS } from '@/lib/summary/verdict-words';
import type { JudgedChange } from '@/lib/trend/judged-change';
import { showDay } from '@/lib/units/calendar-day';
import styles from './result.module.css';

/** The visit a choice belongs to; null where the reader may not choose. */
export type VisitRef = { readonly patientId: string; readonly visitId: string; readonly revision: number; readonly submissionId: string };

/** A zero that looks moved: both readings side by side, as recorded and with the shift taken out. Nothing is corrected. */
export function ShiftReadings({ judged, visit }: { judged: JudgedChange; visit: VisitRef | null }) {
  const { change } = judged;
  if (!change.shift) return null;
  return (
    <div>
      <p className={styles.shiftSentence}>{`◇ ${shiftInWords(change.shift, change.later.ladder.unit)}`}</p>
      {change.realigned && (
        <div className="table-frame">
          <table>
            <caption>{`Both readings against ${showDay(change.earlier.visit.day)}. Nothing has been corrected.`}</caption>
            <thead>
              <tr>
                <th scope="col">Reading</th>
                <ColumnHeads of={['Volume', 'Girth']} numeric />
                <th scope="col">Verdict</th>
              </tr>
            </thead>
            <tbody>
              <tr>
                <th scope="row">As recorded</th>
                <td className="numeric">{signedPct(change.measured.volume.ratio - 1)}</td>
                <td className="numeric">{signedPct(change.measured.girth.ratio - 1)}</td>
                <td>{VERDICT_WORDS[judged.verdict]}</td>
              </tr>
              <tr>
                <th scope="row">Zero moved back</th>
                <td className="numeric">{signedPct(change.realigned.volume.ratio - 1)}</td>
                <td className="numeric">{signedPct(change.realigned.girth.ratio - 1)}</td>
                <td>{judged.realignedVerdict ? VERDICT_WORDS[judged.realignedVerdict] : '–'}</td>
              </tr>
            </tbody>
          </table>
        </div>
      )}
      {visit && (
        <form action={chooseZeroAction} className="actions">
          <input type="hidden" name="patientId" value={visit.patientId} />
          <input type="hidden" name="visitId" value={visit.visitId} />
          <input type="hidden" name="revision" value={visit.revision} />
          <input type="hidden" name="submissionId" value={visit.submissionId} />
          <input type="hidden" name="limb" value={`${change.later.ladder.side} ${change.later.ladder.limb}`} />
          <button className="button" type="submit" name="choice" value="as-recorded">
            Read it as recorded
          </button>
          {change.realigned && (
            <button className="button" type="submit" name="choice" value="moved-back">
              Read it with the zero moved back
            </button>
          )}
        </form>
      )}
    </div>
  );
}

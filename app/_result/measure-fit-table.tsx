import { ColumnHeads } from '@/app/_shell/column-heads';
import type { PatientAnalysis } from '@/lib/analysis/analyse-patient';
import { firstToLeave, type MeasureFit, measureFits } from '@/lib/garments/measure-fit';
import { measureInWords } from '@/lib/parts/measure';
import { measureOutlookInWords } from '@/lib/prompts/measure-outlook-in-words';
import type { Piece } from '@/lib/record/patient-record';
import { REACH_95 } from '@/lib/statistics/reach-95';
import { showDay } from '@/lib/units/calendar-day';
import { capitalized } from '@/lib/units/capitalized';
import { showTapedLength } from '@/lib/units/show-length';

/** The named measures a piece was cut from, each against its newest figure and ahead; nothing where it was cut from none. */
export function MeasureFitTable({ piece, analysis }: { piece: Piece; analysis: PatientAnalysis }) {
  const fits = measureFits(piece, analysis.trusted, analysis.policy);
  if (fits.length === 0) return null;
  const first = firstToLeave(fits);
  return (
    <section className="panel" aria-label={`Hand, foot, trunk and head in piece ${piece.piece}`}>
      <h2>
        Hand, foot, trunk, head in this piece <span className="head-note">{`cut from ${fits.length} named measures`}</span>
      </h2>
      <p>{first ? measureOutlookInWords(first) : 'None is foreseen to leave it within a year.'}</p>
      <div className="table-frame">
        <table>
          <caption>
            Girths by tightness against the fitting, with its 95 % range; lengths by what the part outgrew the piece, drawn towards growth.
            Calculated, not a pressure.
          </caption>
          <thead>
            <tr>
              <th scope="col">Measure</th>
              <ColumnHeads of={['Cut for', 'Newest', 'Tightness', 'Longer, mm']} numeric />
              <th scope="col">Ahead</th>
            </tr>
          </thead>
          <tbody>
            {fits.map((fit) => (
              <FitRow key={`${fit.taken.side} ${fit.taken.measure}`} fit={fit} />
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}

function FitRow({ fit }: { fit: MeasureFit }) {
  const { measure, taken, cutMm, nowMm, nowDay, tightness, shortMm, isOutside } = fit;
  const { unit } = taken.length;
  const name = capitalized(measureInWords(measure, taken.side));
  return (
    <tr>
      <th scope="row">
        {name}
        {isOutside && <span className="second-line">outside this piece</span>}
      </th>
      <td className="numeric">{`${showTapedLength(cutMm, unit)} ${unit}`}</td>
      <td className="numeric">
        {`${showTapedLength(nowMm, unit)} ${unit}`}
        <span className="second-line">{showDay(nowDay)}</span>
      </td>
      <td className="numeric">
        {tightness ? tightness.value.toFixed(2) : '–'}
        {tightness && tightness.sd > 0 && (
          <span className="second-line">
            {`${Math.max(0, tightness.value - REACH_95 * tightness.sd).toFixed(2)}–${(tightness.value + REACH_95 * tightness.sd).toFixed(2)}`}
          </span>
        )}
      </td>
      <td className="numeric">{shortMm === null ? '–' : shortMm.toFixed(1)}</td>
      <td>{measureOutlookInWords(fit).replace(`${name}: `, '')}</td>
    </tr>
  );
}

import { ColumnHeads } from '@/app/_shell/column-heads';
import type { PatientAnalysis } from '@/lib/analysis/analyse-patient';
import { isNoAnswer } from '@/lib/outcome';
import { measureInWords } from '@/lib/parts/measure';
import { pct, signedPct } from '@/lib/prompts/show-figures';
import { type MeasureAt, type MeasureSeries, measureSeries } from '@/lib/trend/measure-series';
import { showDay } from '@/lib/units/calendar-day';
import { capitalized } from '@/lib/units/capitalized';
import { echoLength } from '@/lib/units/show-length';

type Shown = { readonly series: MeasureSeries; readonly at: MeasureAt };

/** Named measures: of one visit where its id is given, else the newest of each. Nothing where there are none. */
export function MeasuresPanel({ analysis, visitId }: { analysis: PatientAnalysis; visitId?: string }) {
  const shown = measureSeries(analysis.trusted, analysis.policy).flatMap((series): Shown[] => {
    const at = visitId === undefined ? series.visits.at(-1) : series.visits.find(({ visit }) => visit.visitId === visitId);
    return at ? [{ series, at }] : [];
  });
  if (shown.length === 0) return null;
  return (
    <section className="panel" aria-labelledby="measures-head">
      <h2 id="measures-head">
        Hand, foot, trunk, head <span className="head-note">{`${shown.length} named ${shown.length === 1 ? 'measure' : 'measures'}`}</span>
      </h2>
      <div className="table-frame">
        <table>
          <caption>
            Change since the last visit whose figure is not asked about. A change below the smallest real one cannot be told from tape
            error.
          </caption>
          <thead>
            <tr>
              <th scope="col">Measure</th>
              <ColumnHeads of={['Value', 'Change', 'Smallest real', 'Growth alone']} numeric />
              <th scope="col">Since</th>
              {visitId === undefined && <th scope="col">Measured</th>}
            </tr>
          </thead>
          <tbody>
            {shown.map(({ series, at }) => (
              <MeasureRow key={`${at.taken.side} ${at.taken.measure}`} series={series} at={at} withDay={visitId === undefined} />
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}

function MeasureRow({ series, at, withDay }: Shown & { withDay: boolean }) {
  const { taken, visit, doubts, lengthMm, sinceLast } = at;
  return (
    <tr>
      <th scope="row">
        {capitalized(measureInWords(series.measure, taken.side))}
        {doubts.map(({ kind, message }) => (
          <span className="second-line" key={kind}>{`◇ ${message}`}</span>
        ))}
        {taken.kept?.map(({ kind, by }) => (
          <span className="second-line" key={kind}>{`kept by ${by}`}</span>
        ))}
        {taken.note && <span className="second-line">{taken.note}</span>}
      </th>
      <td className="numeric">{echoLength(lengthMm, taken.length.unit)}</td>
      <ChangeCells sinceLast={sinceLast} />
      {withDay && <td>{showDay(visit.day)}</td>}
    </tr>
  );
}

function ChangeCells({ sinceLast }: Pick<MeasureAt, 'sinceLast'>) {
  if (isNoAnswer(sinceLast)) return <td colSpan={4}>{sinceLast.noAnswer}</td>;
  const { change, smallestReal, expected, since } = sinceLast;
  const isReal = Math.abs(change) > smallestReal;
  return (
    <>
      <td className="numeric">
        {isReal ? <b>{signedPct(change)}</b> : signedPct(change)}
        {!isReal && <span className="second-line">no clear change</span>}
      </td>
      <td className="numeric">{pct(smallestReal)}</td>
      <td className="numeric">{isNoAnswer(expected) ? <span title={expected.noAnswer}>not known</span> : signedPct(expected)}</td>
      <td>{showDay(since)}</td>
    </>
  );
}

import styles from '@/app/_letter/letter.module.css';
import { ColumnHeads } from '@/app/_shell/column-heads';
import type { PatientAnalysis } from '@/lib/analysis/analyse-patient';
import { measureInWords } from '@/lib/parts/measure';
import { pct, signedPct } from '@/lib/prompts/show-figures';
import { REACH_95 } from '@/lib/statistics/reach-95';
import { type MeasureSeries, measureSeries } from '@/lib/trend/measure-series';
import { showDay } from '@/lib/units/calendar-day';
import { capitalized } from '@/lib/units/capitalized';
import { echoLength } from '@/lib/units/show-length';

/** How many measures the report lists; more are counted. */
const MOST = 24;

/** Named measures of hand, foot, trunk and head: the first and the newest figure not asked about, and the change with its error. */
export function MeasuresSection({ analysis }: { analysis: PatientAnalysis }) {
  const all = measureSeries(analysis.trusted, analysis.policy);
  if (all.length === 0) return null;
  return (
    <section>
      <h3>Hand, foot, trunk, head</h3>
      <div className="table-frame">
        <table className={styles.letterTable}>
          <caption>A change below the smallest real one cannot be told from tape error.</caption>
          <thead>
            <tr>
              <ColumnHeads of={['Measure', 'First', 'Newest', 'Change', 'Smallest real']} />
            </tr>
          </thead>
          <tbody>
            {all.slice(0, MOST).map((series) => (
              <SeriesRow key={`${series.taken.side} ${series.taken.measure}`} series={series} />
            ))}
          </tbody>
        </table>
      </div>
      {all.length > MOST && <p>{`${all.length - MOST} more measures are not listed.`}</p>}
    </section>
  );
}

function SeriesRow({ series: { measure, taken, visits } }: { series: MeasureSeries }) {
  const trusted = visits.filter(({ doubts }) => doubts.length === 0);
  const [first, last] = [trusted[0], trusted.at(-1)];
  const name = <th scope="row">{capitalized(measureInWords(measure, taken.side))}</th>;
  if (!first || !last)
    return (
      <tr>
        {name}
        <td colSpan={4}>every figure is asked about</td>
      </tr>
    );
  const at = ({ lengthMm, visit }: typeof first) => `${echoLength(lengthMm, taken.length.unit)}, ${showDay(visit.day)}`;
  return (
    <tr>
      {name}
      <td>{at(first)}</td>
      <td>{first === last ? 'measured once' : at(last)}</td>
      <td>{first === last ? '–' : signedPct(last.lengthMm / first.lengthMm - 1)}</td>
      <td>{first === last ? '–' : pct((REACH_95 * Math.hypot(first.sdMm, last.sdMm)) / first.lengthMm)}</td>
    </tr>
  );
}

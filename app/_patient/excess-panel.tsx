import { ExcessChart, excessScales } from '@/app/_chart/excess-chart';
import type { ChartPhase } from '@/app/_chart/phase-band';
import { ReadInPlace } from '@/app/_chart/read-in-place';
import { alongDays, chartReadings, pointsOfDays } from '@/app/_chart/readings';
import { StaticMarkup } from '@/app/_markup/static-markup';
import type { AnalysedLimb, PatientAnalysis } from '@/lib/analysis/analyse-patient';
import { excessBands, excessOverTime } from '@/lib/analysis/excess-over-time';
import { otherSide } from '@/lib/ladder/limb';
import { LIMITS } from '@/lib/limits/limits';
import { pct, signedPct } from '@/lib/prompts/show-figures';
import { type CalendarDay, showDay } from '@/lib/units/calendar-day';
import { showVolume } from '@/lib/units/volume';

/** As wide as the chart of the volume above it. */
const COURSE_WIDTH = 736;

type Props = {
  readonly analysis: PatientAnalysis;
  readonly limb: AnalysedLimb;
  readonly phases: readonly ChartPhase[];
  readonly from: CalendarDay;
  readonly to: CalendarDay;
};

/** The excess of an affected limb over the dates of its volume: chart, table and where the bands come from. Nothing where it is not defined. */
export function ExcessPanel({ analysis, limb, phases, from, to }: Props) {
  const over = excessOverTime(analysis, limb);
  const last = over?.points.at(-1);
  if (!over || !last) return null;
  const { limb: kind, side } = limb.series;
  const other = otherSide(side);
  const name = `Excess, % of the ${other} ${kind}`;
  const said = `${name}: ${signedPct(last.share)} on ${showDay(last.day)}, give or take ${pct(last.error)}; ${over.points.length === 1 ? 'one visit' : `${over.points.length} visits`}.`;
  const readings = over.points.map(({ day, share, error, ml, mlError }) => ({
    day,
    shape: side,
    name: side === 'left' ? 'Left' : 'Right',
    value: 100 * share,
    text: `${signedPct(share)} ± ${pct(error)}`,
    range: `${showVolume(ml)} ± ${showVolume(mlError)}`,
  }));
  const scales = excessScales({ points: over.points, from, to, width: COURSE_WIDTH });
  return (
    <section className="panel" aria-labelledby={`excess-${kind}-${side}`}>
      <h2 id={`excess-${kind}-${side}`}>{name}</h2>
      <ReadInPlace
        of={chartReadings({ ...scales, along: alongDays(scales) }, pointsOfDays(readings))}
        name="the excess"
        beside={
          <p className="secondary">
            {`Bars: 95 % range. Washes: published bands of size, not a diagnosis (${LIMITS.excessMinimalPct.source})${over.without > 0 ? ` Not counted at ${over.without} ${over.without === 1 ? 'visit' : 'visits'}.` : ''}`}
          </p>
        }
      >
        <ExcessChart
          side={side}
          points={over.points}
          bands={excessBands(analysis.policy)}
          phases={phases}
          from={from}
          to={to}
          today={analysis.today}
          said={said}
          width={COURSE_WIDTH}
        />
      </ReadInPlace>
      <details className="as-table">
        <summary>As a table</summary>
        <div className="table-frame">
          <StaticMarkup as="table">
            <caption>{`The ${side} ${kind} less the ${other}, with half of its 95 % range.`}</caption>
            <thead>
              <tr>
                {['Day', 'Excess, %', 'Excess, ml'].map((head) => (
                  <th key={head} scope="col" className={head === 'Day' ? undefined : 'numeric'}>
                    {head}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {[...over.points].reverse().map(({ day, share, error, ml, mlError }) => (
                <tr key={day}>
                  <th scope="row">{showDay(day)}</th>
                  <td className="numeric">{`${signedPct(share)} ± ${pct(error)}`}</td>
                  <td className="numeric">{`${showVolume(ml)} ± ${showVolume(mlError)}`}</td>
                </tr>
              ))}
            </tbody>
          </StaticMarkup>
        </div>
      </details>
    </section>
  );
}

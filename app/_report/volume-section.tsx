import { courseLine } from '@/app/_chart/course-line';
import { asDrawn } from '@/app/_chart/phase-band';
import { VolumeChart } from '@/app/_chart/volume-chart';
import styles from '@/app/_letter/letter.module.css';
import { StaticMarkup } from '@/app/_markup/static-markup';
import { ColumnHeads } from '@/app/_shell/column-heads';
import type { PatientAnalysis } from '@/lib/analysis/analyse-patient';
import type { LimbKind } from '@/lib/ladder/limb';
import { excessAt } from '@/lib/summary/excess-sentence';
import { shownPhases } from '@/lib/summary/phase-words';
import { stretchesInWords } from '@/lib/summary/stretch-words';
import { volumeOverTime } from '@/lib/trend/volume-over-time';
import { showDay } from '@/lib/units/calendar-day';
import { capitalized } from '@/lib/units/capitalized';
import { showVolume } from '@/lib/units/volume';

/** So many visits are listed at most: a report is one or two pages. */
const MOST_LISTED = 12;

/** Each affected limb against the healthy other one at its newest visit. */
function betweenLimbs(analysis: PatientAnalysis, limb: LimbKind): string[] {
  return analysis.limbs.flatMap((one) => {
    const newest = one.series.limb === limb ? one.series.visits.at(-1) : undefined;
    return (newest && excessAt(analysis, one, newest)) ?? [];
  });
}

/** Volume of a kind of limb over the visits: the chart, and its figures with their 95 % ranges as a table. */
export function VolumeSection({ analysis, limb }: { analysis: PatientAnalysis; limb: LimbKind }) {
  const drawn = analysis.limbs.flatMap((one) => {
    const { series } = one;
    const over = series.limb === limb ? volumeOverTime(series, analysis.policy) : undefined;
    return over && over.points.length > 0 ? [{ one, series, over }] : [];
  });
  if (drawn.length === 0) return null;
  const lines = drawn.map(({ one, series, over }) => ({
    side: series.side,
    points: over.points,
    ...courseLine(one, over.points),
    ahead: null,
  }));
  const events = (analysis.record.events ?? []).map(({ day, words }) => ({ day, words }));
  const days = [...new Set(lines.flatMap((line) => line.points.map((point) => point.day)))].sort();
  const listed = days.length > MOST_LISTED ? [...days.slice(0, 1), ...days.slice(1 - MOST_LISTED)] : days;
  const between = days.length - listed.length;
  return (
    <section>
      <h3>{`Volume, ${limb}`}</h3>
      <p>{`${capitalized(stretchesInWords(drawn))}. Marks: as measured. Line and shade: the limb as all its visits together have it, 95 % range.`}</p>
      {betweenLimbs(analysis, limb).map((said) => (
        <p key={said}>{said}</p>
      ))}
      <div className="chart-scroll from-the-end">
        <VolumeChart
          lines={lines}
          events={events}
          pieces={[]}
          phases={shownPhases(analysis).map(asDrawn)}
          today={analysis.today}
          said={`Volume of the ${limb}, as in the table below.`}
        />
      </div>
      <div className="table-frame">
        <StaticMarkup as="table" className={styles.letterTable}>
          <caption>{`Volume with its 95\u202f% range, ml.${between > 0 ? ` The first visit and the newest ${MOST_LISTED - 1}; the chart has the ${between} between them too.` : ''}`}</caption>
          <thead>
            <tr>
              <ColumnHeads of={['Day', 'Measured by']} />
              {lines.map(({ side }) => (
                <th key={side} scope="col">
                  {side === 'left' ? 'Left' : 'Right'}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {listed.map((day) => (
              <tr key={day}>
                <th scope="row">{showDay(day)}</th>
                <td>{analysis.record.visits.find((one) => one.day === day)?.measurer ?? 'not recorded'}</td>
                {lines.map(({ side, points }) => {
                  const point = points.find((one) => one.day === day);
                  return (
                    <td key={side}>
                      {point
                        ? `${showVolume(point.volumeMl)} (${showVolume(point.lowMl)} to ${showVolume(point.highMl)})`
                        : 'not measured or not on the same anatomy'}
                    </td>
                  );
                })}
              </tr>
            ))}
          </tbody>
        </StaticMarkup>
      </div>
    </section>
  );
}

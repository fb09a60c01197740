import type { ReactNode } from 'react';
import { courseLine } from '@/app/_chart/course-line';
import { asDrawn } from '@/app/_chart/phase-band';
import type { PieceLine } from '@/app/_chart/piece-lines';
import { ReadInPlace } from '@/app/_chart/read-in-place';
import { alongDays, chartReadings, pointsOfDays } from '@/app/_chart/readings';
import { chartDates, VolumeChart, type VolumeLine, volumeScales } from '@/app/_chart/volume-chart';
import courseStyles from '@/app/_course/course.module.css';
import { CourseTable } from '@/app/_course/course-table';
import { oncePer } from '@/app/_markup/once-per';
import { rememberedMarkup, StaticMarkup } from '@/app/_markup/static-markup';
import type { AnalysedLimb, PatientAnalysis } from '@/lib/analysis/analyse-patient';
import type { AnalysedPiece } from '@/lib/analysis/analyse-piece';
import type { LimbKind } from '@/lib/ladder/limb';
import { isNoAnswer } from '@/lib/outcome';
import { signedPct } from '@/lib/prompts/show-figures';
import { baselineInWords, type ShownPhase, shownPhases } from '@/lib/summary/phase-words';
import { stretchesInWords } from '@/lib/summary/stretch-words';
import { trendSentence } from '@/lib/summary/trend-sentence';
import { type VolumeOverTime, volumeOverTime } from '@/lib/trend/volume-over-time';
import { type CalendarDay, showDay } from '@/lib/units/calendar-day';
import { showVolume } from '@/lib/units/volume';
import { ExcessPanel } from './excess-panel';
import styles from './patient.module.css';

/** As wide as the chart of a course is drawn: a tablet's panel holds it whole. */
const COURSE_PX = 736;

/** Lines of so many pieces stand under the chart. */
const MOST_PIECES = 8;

type PanelProps = {
  readonly analysis: PatientAnalysis;
  readonly limb: LimbKind;
  /** Whether the excess over the other limb is charted too: where garments are worn for swelling, not for a scar. */
  readonly swelling: boolean;
  readonly children?: ReactNode;
};

/** Volume of a kind of limb over true dates: chart, sentence and table from the same figures; for swelling the excess below it. */
export function VolumePanel({ analysis, limb, swelling, children }: PanelProps) {
  const shown = oncePer(analysis, `volume ${limb}`, () => shownVolume(analysis, limb));
  if (!shown) return null;
  const { drawn, lines, said, span, phases, parts, dates, notDrawn, readings } = shown;
  return (
    <>
      <section className="panel" aria-labelledby={`volume-${limb}`}>
        <h2 id={`volume-${limb}`}>Volume over time</h2>
        <p className="secondary">{`ml, ${span}. Marks: as measured. Line and shade: the limb as all its visits together have it, 95 % range.${lines.some(({ step }) => step) ? ' Violet: the time between two visits in which a change came.' : ''}${phases.length > 0 ? ' Above: the phases of the course, a wedge at each baseline.' : ''}${notDrawn > 0 ? ` The newest ${MOST_PIECES} pieces are drawn; ${notDrawn} before them ${notDrawn === 1 ? 'is' : 'are'} not.` : ''}`}</p>
        <ReadInPlace
          of={readings}
          name={`the volume of the ${limb}`}
          beside={
            <>
              <ul className={styles.trends}>
                {drawn.map(({ limb: one }) => (
                  <li key={one.series.side}>
                    <strong className="side-word" data-side={one.series.side}>
                      {one.series.side === 'left' ? 'Left' : 'Right'}
                    </strong>{' '}
                    {trendSentence(one.trend)}
                    {one.relativeVolumeChange !== null &&
                      ` Against the other ${limb}, since the ${sinceOf(one)}: ${signedPct(one.relativeVolumeChange)} (relative volume change).`}
                  </li>
                ))}
              </ul>
              {phases.length > 0 && <PhaseList phases={phases} />}
            </>
          }
        >
          {rememberedMarkup(analysis, `volume chart ${limb}`, () => (
            <VolumeChart {...parts} said={said} />
          ))}
        </ReadInPlace>
        {rememberedMarkup(analysis, `volume table ${limb}`, () => (
          <details className="as-table">
            <summary>As a table</summary>
            <VolumeTable lines={lines} />
            {phases.length > 0 && <CourseTable phases={phases} />}
          </details>
        ))}
        {drawn.flatMap(({ limb: one, over }) =>
          over.leftOut.map((out) => (
            <p
              key={`${one.series.side} ${out.day}`}
              className="secondary"
            >{`${showDay(out.day)}, ${one.series.side}: not in the line, ${out.why}.`}</p>
          )),
        )}
        {children}
      </section>
      {swelling &&
        drawn.map(({ limb: one }) => <ExcessPanel key={one.series.side} analysis={analysis} limb={one} phases={parts.phases} {...dates} />)}
    </>
  );
}

/** What the panel says of a kind of limb, by its analysis alone; undefined where there is no line. */
function shownVolume(analysis: PatientAnalysis, limb: LimbKind) {
  const limbs = analysis.limbs.filter((one) => one.series.limb === limb);
  const drawn = limbs.flatMap((one) => {
    const over = volumeOverTime(one.series, analysis.policy);
    return over && over.points.length > 0 ? [{ limb: one, over }] : [];
  });
  if (drawn.length === 0) return undefined;
  const span = stretchesInWords(drawn.map(({ limb: { series }, over }) => ({ series, over })));
  const lines = drawn.map(
    ({ limb: one, over }): VolumeLine => ({
      side: one.series.side,
      points: over.points,
      ...courseLine(one, over.points),
      ahead: aheadOf(one, over),
    }),
  );
  const said = sentence(lines, limb);
  const events = (analysis.record.events ?? []).map((event) => ({
    day: event.day,
    words: event.words,
  }));
  const worn = analysis.pieces.filter((one) => one.piece.limb === limb && one.piece.covers !== 'measures' && one.piece.firstWorn);
  const pieces = worn.slice(-MOST_PIECES).map((one) => pieceLine(one, analysis.today));
  const phases = shownPhases(analysis);
  const bands = phases.map(asDrawn);
  const dates = chartDates({ lines, events, pieces, phases: bands, today: analysis.today });
  const parts = { lines, events, pieces, phases: bands, today: analysis.today, width: COURSE_PX };
  const notDrawn = worn.length - pieces.length;
  const scales = volumeScales(parts);
  const readings = chartReadings({ ...scales, along: alongDays(scales) }, pointsOfDays(readingsOf(lines)));
  return { drawn, lines, said, span, phases, parts, dates, notDrawn, readings };
}

/** What the newest visit of a limb is compared with, with its day where that is a phase's baseline. */
function sinceOf({ visits, series }: AnalysedLimb): string {
  const newest = visits.at(-1);
  if (!newest) return 'first visit';
  const { inPhase } = newest;
  return `${baselineInWords(inPhase, series.visits[0])}${inPhase.phase ? `, ${showDay(inPhase.baseline.visit.day)}` : ''}`;
}

/** The phases of the band by number, in words: what is read where the band has no room for them. */
function PhaseList({ phases }: { phases: readonly ShownPhase[] }) {
  return (
    <ol className={courseStyles.phaseList} aria-label="Phases of the course">
      {phases.map(({ number, words, phase, end, baseline, current }) => (
        <li key={number} className={current ? courseStyles.current : undefined}>
          {`${words}, ${phase.kind === 'ended' ? '' : end ? `${showDay(phase.from)} to ` : 'since '}${showDay(end ?? phase.from)}`}
          {baseline ? `; baseline ${showDay(baseline)}` : ''}
        </li>
      ))}
    </ol>
  );
}

/** Each visit's volumes in words, for reading them off the chart. */
function readingsOf(lines: readonly VolumeLine[]) {
  return lines.flatMap(({ side, points }) =>
    points.map(({ day, volumeMl, lowMl, highMl }) => ({
      day,
      shape: side,
      name: side === 'left' ? 'Left' : 'Right',
      value: volumeMl,
      text: showVolume(volumeMl),
      range: `${showVolume(lowMl)} to ${showVolume(highMl)}`,
    })),
  );
}

function aheadOf(limb: AnalysedLimb, over: VolumeOverTime): VolumeLine['ahead'] {
  const { trend } = limb;
  const base = over.points[0];
  if (isNoAnswer(trend) || !trend.forecast || !base || trend.of !== 'volume' || base.day !== trend.from) return null;
  const { until, middle, low, high } = trend.forecast;
  return {
    until,
    middleMl: base.volumeMl * middle,
    lowMl: base.volumeMl * low,
    highMl: base.volumeMl * high,
  };
}

function pieceLine(one: AnalysedPiece, today: CalendarDay): PieceLine {
  const { piece, endOfLife, outgrow } = one;
  const firstWorn = piece.firstWorn ?? today;
  const end = isNoAnswer(endOfLife) ? null : endOfLife;
  const retired = piece.retired
    ? {
        day: piece.retired,
        reason: (piece as { retiredReason?: string | null }).retiredReason ?? 'out of use',
      }
    : null;
  const outgrown =
    !retired && !isNoAnswer(outgrow) && outgrow.earlyDay && (!end || outgrow.earlyDay < end)
      ? { early: outgrow.earlyDay, middle: outgrow.day }
      : null;
  return {
    piece: piece.piece,
    firstWorn,
    endOfLife: end,
    retired,
    outgrown,
    days: [firstWorn, ...(retired ? [retired.day] : end ? [end] : [])],
  };
}

function sentence(lines: readonly VolumeLine[], limb: LimbKind): string {
  return lines
    .map((line) => {
      const first = line.points[0];
      const last = line.points.at(-1);
      if (!first || !last) return '';
      const word = line.side === 'left' ? 'Left' : 'Right';
      if (first === last) return `${word} ${limb}: ${showVolume(last.volumeMl)} on ${showDay(last.day)}, one visit.`;
      return `${word} ${limb}: ${showVolume(first.volumeMl)} on ${showDay(first.day)}, ${showVolume(last.volumeMl)} on ${showDay(last.day)}, ${line.points.length} visits.`;
    })
    .join(' ');
}

function VolumeTable({ lines }: { lines: readonly VolumeLine[] }) {
  const days = [...new Set(lines.flatMap((line) => line.points.map((point) => point.day)))].sort().reverse();
  return (
    <div className="table-frame">
      <StaticMarkup as="table">
        <caption>Volume with its 95 % range, ml.</caption>
        <thead>
          <tr>
            <th scope="col">Day</th>
            {lines.map((line) => (
              <th key={line.side} scope="col" className="numeric">
                {line.side === 'left' ? 'Left' : 'Right'}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {days.map((day) => (
            <tr key={day}>
              <th scope="row">{showDay(day)}</th>
              {lines.map((line) => {
                const point = line.points.find((one) => one.day === day);
                return (
                  <td key={line.side} className="numeric">
                    {point ? `${showVolume(point.volumeMl)} (${showVolume(point.lowMl)} to ${showVolume(point.highMl)})` : 'not measured'}
                  </td>
                );
              })}
            </tr>
          ))}
        </tbody>
      </StaticMarkup>
    </div>
  );
}

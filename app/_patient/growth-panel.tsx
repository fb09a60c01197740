import { GrowthChart, type GrowthLine, growthScales } from '@/app/_chart/growth-chart';
import { ReadInPlace } from '@/app/_chart/read-in-place';
import { alongDays, chartReadings } from '@/app/_chart/readings';
import { oncePer } from '@/app/_markup/once-per';
import { rememberedMarkup, StaticMarkup } from '@/app/_markup/static-markup';
import type { PatientAnalysis } from '@/lib/analysis/analyse-patient';
import { burnDriftZ } from '@/lib/growth/after-burn';
import { showCentile } from '@/lib/growth/centile';
import type { GrowthReference } from '@/lib/growth/growth-reference';
import { projectMeasure } from '@/lib/growth/project-measure';
import { valueAtZ, zScore } from '@/lib/growth/z-score';
import { isNoAnswer } from '@/lib/outcome';
import { isGrowing } from '@/lib/trend/limb-series';
import { showAge } from '@/lib/units/age';
import { addDays, type CalendarDay, dayNumber, daysBetween, showDay } from '@/lib/units/calendar-day';
import { inUnit } from '@/lib/units/length';
import { kg, showMass } from '@/lib/units/mass';
import { showLengthWithUnit } from '@/lib/units/show-length';
import { unitBeside } from './girth-table';
import styles from './patient.module.css';

const P10 = -1.2815515655446004;
const LOOK_AHEAD_DAYS = 182;
const REFERENCE_NAMES: Readonly<Record<GrowthReference, string>> = {
  'cdc-2000': 'CDC 2000 (WHO 2006 under two years)',
  who: 'WHO 2006 and 2007',
};

type Measured = {
  readonly day: CalendarDay;
  readonly inTable: number;
  readonly shown: number;
};

/** Height and weight of a child on the clinic's growth tables; of an adult, weight alone. */
export function GrowthPanel({ analysis }: { analysis: PatientAnalysis }) {
  const { record, policy, today } = analysis;
  const heightUnit = record.visits.findLast((visit) => visit.height)?.height?.unit ?? 'cm';
  const massUnit = record.visits.findLast((visit) => visit.weight)?.weight?.unit ?? 'kg';
  const growing = isGrowing(record, today, policy);
  const heights = record.visits.flatMap((visit): Measured[] =>
    visit.height
      ? [
          {
            day: visit.day,
            inTable: visit.height.nm / 1e7,
            shown: inUnit(visit.height.nm / 1e6, heightUnit),
          },
        ]
      : [],
  );
  const perUnit = massUnit === 'kg' ? 1 : 0.45359237;
  const weights = record.visits.flatMap((visit): Measured[] =>
    visit.weight
      ? [
          {
            day: visit.day,
            inTable: kg(visit.weight),
            shown: kg(visit.weight) / perUnit,
          },
        ]
      : [],
  );
  const lastHeight = heights.at(-1);
  const lastWeight = weights.at(-1);
  if (!lastWeight && !(growing && lastHeight)) return null;
  return (
    <section className="panel" aria-labelledby="growth-head">
      <h2 id="growth-head">{growing ? 'Growth' : 'Weight'}</h2>
      <div className={styles.growthCharts}>
        {growing && lastHeight && (
          <div>
            <p className={styles.chartTitle}>
              <strong>Height</strong>{' '}
              {`${showLengthWithUnit(lastHeight.inTable * 10, heightUnit)}${placeAfter(analysis, 'height', lastHeight)}, ${showDay(lastHeight.day)}`}
            </p>
            <ReadGrowth
              analysis={analysis}
              measure="height"
              measured={heights}
              growing={growing}
              show={(inTable) => showLengthWithUnit(inTable * 10, heightUnit)}
            />
          </div>
        )}
        {lastWeight && (
          <div>
            <p className={styles.chartTitle}>
              <strong>Weight</strong>{' '}
              {`${showMass(lastWeight.inTable, massUnit)}${growing ? placeAfter(analysis, 'weight', lastWeight) : ''}, ${showDay(lastWeight.day)}`}
            </p>
            <ReadGrowth
              analysis={analysis}
              measure="weight"
              measured={weights}
              growing={growing}
              show={(inTable) => showMass(inTable, massUnit)}
            />
          </div>
        )}
      </div>
      {growing && (
        <p className="secondary">{`Grey: 10th to 90th centile, ${REFERENCE_NAMES[policy.growthReference]}. Hatched: this child’s own place in the table, carried on for six months.`}</p>
      )}
      {rememberedMarkup(analysis, 'growth table', () => (
        <details className="as-table">
          <summary>As a table</summary>
          <BodyTable analysis={analysis} />
        </details>
      ))}
    </section>
  );
}

type ReadProps = {
  readonly analysis: PatientAnalysis;
  readonly measure: 'height' | 'weight';
  readonly measured: readonly Measured[];
  readonly growing: boolean;
  readonly show: (inTable: number) => string;
};

/** One of both charts, read where it stands: each figure with the age it was taken at and, while growing, its place in the table. */
function ReadGrowth({ analysis, measure, measured, growing, show }: ReadProps) {
  const name = measure === 'height' ? 'Height' : 'Weight';
  const { line, readings } = oncePer(analysis, `growth ${measure}`, () => {
    const drawn = lineOf(analysis, measure, measured, growing);
    const scales = growthScales(drawn);
    const points = measured.map((one) => ({
      at: dayNumber(one.day),
      words: `${showDay(one.day)}, at ${showAge(analysis.record.born, one.day)}`,
      readings: [
        {
          ...{ name, shape: 'square' as const, value: one.shown, text: show(one.inTable) },
          range: growing ? placeOf(analysis, measure, one) : '',
        },
      ],
    }));
    return { line: drawn, readings: chartReadings({ ...scales, along: alongDays(scales) }, points) };
  });
  const last = measured.at(-1);
  return (
    <ReadInPlace of={readings} name={`the ${measure}`} layout="small">
      {rememberedMarkup(analysis, `growth chart ${measure}`, () => (
        <GrowthChart line={line} said={`${name} over ${measured.length} visits, last ${last ? show(last.inTable) : ''}.`} />
      ))}
    </ReadInPlace>
  );
}

/** `62nd centile`; empty where the table has no place for it. */
function placeOf(analysis: PatientAnalysis, measure: 'height' | 'weight', at: Measured): string {
  const { record, policy } = analysis;
  const score = zScore(policy.growthReference, measure, record.sex, daysBetween(record.born, at.day), at.inTable);
  return isNoAnswer(score) ? '' : showCentile(score.centile);
}

function placeAfter(analysis: PatientAnalysis, measure: 'height' | 'weight', at: Measured): string {
  const place = placeOf(analysis, measure, at);
  return place === '' ? '' : ` · ${place}`;
}

function lineOf(analysis: PatientAnalysis, measure: 'height' | 'weight', measured: readonly Measured[], growing: boolean): GrowthLine {
  const points = measured.map(({ day, shown }) => ({ day, value: shown }));
  const first = measured[0];
  const last = measured.at(-1);
  if (!growing || !first || !last) return { points, reference: [], ahead: [] };
  const { record, policy } = analysis;
  const perShown = last.shown / last.inTable;
  const until = daysBetween(first.day, last.day) + LOOK_AHEAD_DAYS;
  const steps = Array.from({ length: 13 }, (_, step) => addDays(first.day, Math.round((until * step) / 12)));
  const reference = steps.flatMap((day) => {
    const at = (z: number) => valueAtZ(policy.growthReference, measure, record.sex, daysBetween(record.born, day), z);
    const [low, middle, high] = [at(P10), at(0), at(-P10)];
    if (isNoAnswer(low) || isNoAnswer(middle) || isNoAnswer(high)) return [];
    return [
      {
        day,
        p10: low.value * perShown,
        p50: middle.value * perShown,
        p90: high.value * perShown,
      },
    ];
  });
  const ahead = [0, 0.25, 0.5, 0.75, 1].flatMap((share) => {
    const day = addDays(last.day, Math.round(LOOK_AHEAD_DAYS * share));
    const further = burnDriftZ(record.facts, last.day, day, policy);
    const projected = projectMeasure(
      policy.growthReference,
      measure,
      record.sex,
      record.born,
      last.day,
      last.inTable,
      day,
      undefined,
      further,
    );
    return isNoAnswer(projected)
      ? []
      : [
          {
            day,
            low: projected.low90 * perShown,
            middle: projected.middle * perShown,
            high: projected.high90 * perShown,
          },
        ];
  });
  return { points, reference, ahead };
}

function BodyTable({ analysis }: { analysis: PatientAnalysis }) {
  const rows = analysis.record.visits.filter((visit) => visit.height || visit.weight).reverse();
  return (
    <div className="table-frame">
      <StaticMarkup as="table">
        <caption>Height and weight as typed.</caption>
        <thead>
          <tr>
            <th scope="col">Day</th>
            <th scope="col" className="numeric">
              Height
            </th>
            <th scope="col" className="numeric">
              Weight
            </th>
          </tr>
        </thead>
        <tbody>
          {rows.map((visit) => (
            <tr key={visit.day + (visit.time ?? '')}>
              <th scope="row">{showDay(visit.day)}</th>
              <td className="numeric">{visit.height ? unitBeside(visit.height) : '–'}</td>
              <td className="numeric">{visit.weight ? unitBeside(visit.weight) : '–'}</td>
            </tr>
          ))}
        </tbody>
      </StaticMarkup>
    </div>
  );
}

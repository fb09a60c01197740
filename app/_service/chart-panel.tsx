import { ProcessChartPicture, processScales, processShape } from '@/app/_chart/process-chart';
import { ReadInPlace } from '@/app/_chart/read-in-place';
import { chartReadings, type ReadPoint } from '@/app/_chart/readings';
import { StaticMarkup } from '@/app/_markup/static-markup';
import { ColumnHeads } from '@/app/_shell/column-heads';
import { isNoAnswer } from '@/lib/outcome';
import { FROZEN_AT } from '@/lib/service/process-chart';
import type { ServiceChart } from '@/lib/service/service-charts';
import type { NoFigure } from '@/lib/service/service-figures';
import styles from './service.module.css';

type Props = {
  readonly id: string;
  readonly title: string;
  readonly of: ServiceChart | NoFigure;
  readonly show: (value: number) => string;
  readonly value: string;
  readonly says: string;
};

/** The newest values that are drawn and listed; limits and signals are of all. */
const MOST_DRAWN = 60;

/** A process chart with its signals in words and its table; or why there is none. */
export function ChartPanel({ id, title, of, show, value, says }: Props) {
  return (
    <section className="panel" aria-labelledby={id}>
      <h2 id={id}>{title}</h2>
      <p className="secondary">{says}</p>
      {isNoAnswer(of) ? <p>{of.noAnswer}</p> : <Chart of={of} show={show} value={value} title={title} />}
    </section>
  );
}

function Chart({ of: whole, show, value, title }: { of: ServiceChart } & Pick<Props, 'show' | 'value' | 'title'>) {
  const left = Math.max(0, whole.points.length - MOST_DRAWN);
  const of = left === 0 ? whole : newest(whole);
  const state = whole.isFrozen
    ? `Limits frozen from the first ${FROZEN_AT} values.`
    : `Limits still move: ${whole.points.length} of the ${FROZEN_AT} values that freeze them.`;
  return (
    <>
      {whole.signals.length === 0 ? (
        <p>Nothing stands out.</p>
      ) : (
        <ul className={styles.signals}>
          {whole.signals.map((signal) => (
            <li key={signal}>{signal}</li>
          ))}
        </ul>
      )}
      <ReadInPlace
        of={chartReadings(processScales(of), readingsOf(of, show, value))}
        name={title}
        points={of.kind === 'between' ? 'Stretches' : 'Months'}
        layout="wide"
      >
        <ProcessChartPicture of={of} show={show} said={`${title}, ${of.points.length} values. The table below has the same figures.`} />
      </ReadInPlace>
      <p className="secondary small">{left === 0 ? state : `${state} The newest ${MOST_DRAWN} are drawn.`}</p>
      <details className="as-table">
        <summary>As a table</summary>
        <div className="table-frame">
          <StaticMarkup as="table">
            <caption>{`${title}: each value with its limits; the mean is ${show(of.chart.centre)}.`}</caption>
            <thead>
              <tr>
                <th scope="col">{of.kind === 'between' ? 'Stretch' : 'Month'}</th>
                <th scope="col" className="numeric">
                  {value}
                </th>
                <ColumnHeads of={['n', 'Limits']} numeric />
                <th scope="col">Signal</th>
              </tr>
            </thead>
            <tbody>
              {of.points.map((point, index) => (
                <tr key={point.label}>
                  <th scope="row">{point.label}</th>
                  <td className="numeric">{show(point.value)}</td>
                  <td className="numeric">{point.n}</td>
                  <td className="numeric">{limitsAt(of, index, show)}</td>
                  <td>{point.isOutside ? 'outside' : ''}</td>
                </tr>
              ))}
            </tbody>
          </StaticMarkup>
        </div>
      </details>
    </>
  );
}

/** Each value in words, for reading it off the chart: of how many cases, and between which limits. */
function readingsOf(of: ServiceChart, show: Props['show'], name: string): readonly ReadPoint[] {
  return of.points.map(({ label, value, n, isOutside }, at) => ({
    at,
    words: label,
    readings: [
      {
        ...{ name, shape: processShape(of.kind, n), value, text: show(value) },
        range: `${of.kind === 'between' ? '' : `n ${n}, `}limits ${limitsAt(of, at, show)}${isOutside ? ', outside them' : ''}`,
      },
    ],
  }));
}

function limitsAt({ chart }: ServiceChart, index: number, show: Props['show']): string {
  return `${show(Math.max(0, chart.limits[index]?.low ?? 0))}–${show(chart.limits[index]?.high ?? 0)}`;
}

function newest(of: ServiceChart): ServiceChart {
  const chart = { ...of.chart, limits: of.chart.limits.slice(-MOST_DRAWN) };
  return { ...of, isFrozen: false, points: of.points.slice(-MOST_DRAWN), chart };
}

import clsx from 'clsx';
import { ColumnHeads } from '@/app/_shell/column-heads';
import type { RowChoice } from '@/db/service/service-rows';
import { isNoAnswer } from '@/lib/outcome';
import type { Of, ShareFigure } from '@/lib/service/service-figures';
import type { ServicePeriod } from '@/lib/service/service-period';
import { RowsLink } from './rows-link';
import styles from './service.module.css';
import { perHundred, shareRange } from './service-words';

type Props = {
  readonly rows: readonly Of<ShareFigure>[];
  readonly name: string;
  readonly inWords: (of: string | null) => string;
  readonly choice: Pick<RowChoice, 'figure' | 'by'>;
  readonly period: ServicePeriod;
  readonly caption: string;
  /** The share at which the bars end. */
  readonly end: number;
};

const BAR = 150;
/** Pale with fewer cases than this. */
const FEW = 10;

/** Shares of kinds of case: a bar with its range, per hundred, and how many of how many, as the link to them. */
export function ShareTable({ rows, name, inWords, choice, period, caption, end }: Props) {
  return (
    <div className="table-frame">
      <table>
        <caption>{caption}</caption>
        <thead>
          <tr>
            <th scope="col">{name}</th>
            <th scope="col">
              <span className="visually-hidden">Drawn</span>
            </th>
            <ColumnHeads numeric of={['In 100', 'Range', 'n']} />
          </tr>
        </thead>
        <tbody>
          {rows.map(({ of, figure }) =>
            isNoAnswer(figure) ? null : (
              <tr key={of}>
                <th scope="row">{inWords(of)}</th>
                <td>
                  <Bar {...figure} end={end} />
                </td>
                <td className="numeric">{perHundred(figure.share)}</td>
                <td className="numeric">{shareRange(figure)}</td>
                <td className="numeric">
                  <RowsLink
                    {...choice}
                    of={of}
                    period={period}
                    words={`${figure.some} of ${figure.all}`}
                    about={`${name} ${inWords(of)}`}
                  />
                </td>
              </tr>
            ),
          )}
        </tbody>
      </table>
    </div>
  );
}

function Bar({ some, share, low, high, end }: Exclude<ShareFigure, { noAnswer: string }> & { readonly end: number }) {
  const x = (value: number) => Math.round(1000 * BAR * Math.min(1, value / end)) / 1000;
  return (
    <svg className={styles.shareBar} width={BAR + 2} height={18} viewBox={`0 0 ${BAR + 2} 18`} aria-hidden="true">
      <rect className={clsx(`${styles.bar} wash`, some < FEW && styles.few)} x={0} y={3} width={x(share)} height={12} />
      <path className={styles.whisker} d={`M${x(low)} 9H${x(high)}M${x(low)} 5v8M${x(high)} 5v8`} />
    </svg>
  );
}

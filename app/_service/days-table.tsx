import { ColumnHeads } from '@/app/_shell/column-heads';
import type { RowChoice } from '@/db/service/service-rows';
import { isNoAnswer } from '@/lib/outcome';
import type { DaysFigure } from '@/lib/service/service-figures';
import type { ServicePeriod } from '@/lib/service/service-period';
import { RowsLink } from './rows-link';
import { daysRange, showDays } from './service-words';

type Row = { readonly name: string; readonly figure: DaysFigure; readonly choice: RowChoice };

/** Days of kinds of case: median with its range, by when nine in ten were done, and n as the link to the cases; or why no median is said. */
export function DaysTable({ rows, name, caption, period }: { rows: readonly Row[]; name: string; caption: string; period: ServicePeriod }) {
  return (
    <div className="table-frame">
      <table>
        <caption>{caption}</caption>
        <thead>
          <tr>
            <th scope="col">{name}</th>
            <ColumnHeads numeric of={['Median', 'Range', '9 in 10 by', 'n']} />
          </tr>
        </thead>
        <tbody>
          {rows.map(({ name: of, figure, choice }) => (
            <tr key={of}>
              <th scope="row">{of}</th>
              {isNoAnswer(figure) ? (
                <td colSpan={3} className="secondary">
                  {figure.noAnswer}
                </td>
              ) : (
                <>
                  <td className="numeric">{showDays(figure.median)}</td>
                  <td className="numeric">{daysRange(figure)}</td>
                  <td className="numeric">{showDays(figure.nineInTen)}</td>
                </>
              )}
              <td className="numeric">
                {figure.n === 0 ? 0 : <RowsLink {...choice} period={period} words={String(figure.n)} about={`${name} ${of}`} />}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

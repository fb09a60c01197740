import { ColumnHeads } from '@/app/_shell/column-heads';
import type { FitThen } from '@/lib/analysis/fit-history';
import { showDay } from '@/lib/units/calendar-day';

/** How a piece sat at each visit since it was cut, the newest first. */
export function FitThenTable({ fits, band }: { fits: readonly FitThen[]; band: string }) {
  if (fits.length === 0) return null;
  return (
    <section aria-labelledby="fits-head">
      <h2 id="fits-head" className="section-head">
        Fit by visit <span className="head-note">{`of fitted tightness, band ${band}`}</span>
      </h2>
      <div className="table-frame">
        <table>
          <thead>
            <tr>
              <th scope="col">Visit</th>
              <ColumnHeads of={['Loosest, as cut', 'Tightest, as cut', 'Tightest, as worn', 'Worn days']} numeric />
            </tr>
          </thead>
          <tbody>
            {[...fits].reverse().map((fit) => (
              <tr key={fit.day}>
                <th scope="row">{showDay(fit.day)}</th>
                <td className="numeric">{fit.least.toFixed(2)}</td>
                <td className="numeric">{fit.most.toFixed(2)}</td>
                <td className="numeric">{fit.wornDays > 0 ? fit.mostWorn.toFixed(2) : 'not worn yet'}</td>
                <td className="numeric">{Math.round(fit.wornDays)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}

import { ColumnHeads } from '@/app/_shell/column-heads';
import { isNoAnswer } from '@/lib/outcome';
import type { ServiceFigures } from '@/lib/service/service-figures';
import { daysOfCases } from '@/lib/service/service-figures';
import { RowsLink } from './rows-link';
import { perHundred, ruleInWords } from './service-words';

/** What patients went without, and what became of their excess by phase. */
export function CarePanel({ figures: { care, period } }: { readonly figures: ServiceFigures }) {
  const { without, withAny, phases } = care;
  return (
    <section className="panel" aria-labelledby="care">
      <h2 id="care">Without a piece, and excess by phase</h2>
      {without && withAny ? (
        <p>
          {`Without a working piece ${without.days.toFixed(1)} days a year and limb${without.low === null || without.high === null ? ', one patient' : ` (range ${without.low.toFixed(1)}–${without.high.toFixed(1)})`}; patients with any such day `}
          <RowsLink figure="without" period={period} words={`${withAny.some} of ${withAny.all}`} about="days without a working piece" />
          {` (${perHundred(withAny.low)}–${perHundred(withAny.high)} in 100).`}
        </p>
      ) : (
        <p>No limb was in care with garments in a month of this period that has ended.</p>
      )}
      {phases.length === 0 ? (
        <p>No phase of this period has two visits with an excess.</p>
      ) : (
        <div className="table-frame">
          <table>
            <caption>
              Excess over the other limb, lost from the first to the last visit of a phase, percentage points; kept: not above what the
              phase before had reached, beyond the error of both.
            </caption>
            <thead>
              <tr>
                <th scope="col">Phase</th>
                <ColumnHeads numeric of={['Lost, median', 'Range', 'Kept', 'Range', 'n']} />
              </tr>
            </thead>
            <tbody>
              {phases.map(({ phase, lost, kept }) => {
                const figure = daysOfCases(lost);
                const n = lost.reduce((sum, one) => sum + one.n, 0);
                const points = (tenths: number | null) => (tenths === null ? '–' : (tenths / 10).toFixed(1));
                return (
                  <tr key={phase}>
                    <th scope="row">{ruleInWords(phase)}</th>
                    {isNoAnswer(figure) ? (
                      <td colSpan={2} className="secondary">
                        {figure.noAnswer}
                      </td>
                    ) : (
                      <>
                        <td className="numeric">{points(figure.median)}</td>
                        <td className="numeric">{`${points(figure.low)} to ${points(figure.high)}`}</td>
                      </>
                    )}
                    <td className="numeric">{kept ? `${kept.some} of ${kept.all}` : '–'}</td>
                    <td className="numeric">{kept ? `${perHundred(kept.low)}–${perHundred(kept.high)}` : '–'}</td>
                    <td className="numeric">
                      <RowsLink
                        {...{ figure: 'excess', by: 'phase', of: phase }}
                        period={period}
                        words={String(n)}
                        about={ruleInWords(phase)}
                      />
                    </td>
                  </tr>
                );
              })}
            </tbody>
          </table>
        </div>
      )}
    </section>
  );
}

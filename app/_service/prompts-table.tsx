import { ColumnHeads } from '@/app/_shell/column-heads';
import { isNoAnswer } from '@/lib/outcome';
import type { ServiceFigures } from '@/lib/service/service-figures';
import type { ServicePeriod } from '@/lib/service/service-period';
import { RowsLink } from './rows-link';
import { perHundred, ruleInWords, shareRange } from './service-words';

/** What was answered to the prompts of each rule; the share acted on with its range, and n as the link to the cases. */
export function PromptsTable({ rows, period }: { rows: ServiceFigures['promptsByRule']; period: ServicePeriod }) {
  return (
    <div className="table-frame">
      <table>
        <caption>Prompts by rule; acted on in a hundred, with the 95 % range.</caption>
        <thead>
          <tr>
            <th scope="col">Rule</th>
            <ColumnHeads numeric of={['Acted on', 'Put off', 'Declined', 'In 100', 'Range', 'n']} />
          </tr>
        </thead>
        <tbody>
          {rows.map(({ of, figure: { act, putOff, declined, acted } }) =>
            isNoAnswer(acted) ? null : (
              <tr key={of}>
                <th scope="row">{ruleInWords(of)}</th>
                <td className="numeric">{act}</td>
                <td className="numeric">{putOff}</td>
                <td className="numeric">{declined}</td>
                <td className="numeric">{perHundred(acted.share)}</td>
                <td className="numeric">{shareRange(acted)}</td>
                <td className="numeric">
                  <RowsLink figure="prompts" by="rule" of={of} period={period} words={String(acted.all)} about={ruleInWords(of)} />
                </td>
              </tr>
            ),
          )}
        </tbody>
      </table>
    </div>
  );
}

import { todayIn } from '@/app/_auth/today';
import { ColumnHeads } from '@/app/_shell/column-heads';
import { HistoryTable, personIn } from '@/app/_shell/history-table';
import type { KeptOrder } from '@/db/patients/read-orders';
import { showDay } from '@/lib/units/calendar-day';

/** Every state an order has been in, the newest first, and what was answered before it left. */
export function OrderHistory({
  revisions,
  names,
  timeZone,
}: {
  revisions: readonly KeptOrder[];
  names: ReadonlyMap<string, string>;
  timeZone: string;
}) {
  const answered = revisions.at(-1)?.questions ?? [];
  return (
    <section className="no-print" aria-labelledby="history-head">
      <h2 id="history-head" className="section-head">
        History
      </h2>
      {answered.length > 0 && (
        <div className="table-frame">
          <table>
            <caption>Asked before it was sent</caption>
            <thead>
              <tr>
                <ColumnHeads of={['Question', 'Answer', 'By']} />
              </tr>
            </thead>
            <tbody>
              {answered.map((one) => (
                <tr key={one.key}>
                  <td>{one.message}</td>
                  <td>{one.answer}</td>
                  <td>{`${personIn(names, one.by)}, ${showDay(todayIn(timeZone, new Date(one.at)))}`}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      <HistoryTable revisions={revisions} names={names} timeZone={timeZone} first="proposed" />
    </section>
  );
}

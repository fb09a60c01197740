import type { KeptPiece } from '@/db/read-pieces';
import { pieceStage } from '@/lib/garments/piece-stage';
import { type CalendarDay, showDay } from '@/lib/units/calendar-day';

/** Every state a piece has been in, the newest first: who wrote it, when and why, and what stood then. */
export function PieceHistory({
  revisions,
  names,
  today,
}: {
  revisions: readonly KeptPiece[];
  names: ReadonlyMap<string, string>;
  today: CalendarDay;
}) {
  return (
    <section aria-labelledby="history-head">
      <h2 id="history-head" className="section-head">
        History
      </h2>
      <div className="table-frame">
        <table>
          <thead>
            <tr>
              <th scope="col">State</th>
              <th scope="col">Written</th>
              <th scope="col">By</th>
              <th scope="col">What</th>
              <th scope="col">Stood as</th>
              <th scope="col">Delivered</th>
              <th scope="col">First fit</th>
              <th scope="col">First worn</th>
              <th scope="col">Out of use</th>
            </tr>
          </thead>
          <tbody>
            {[...revisions].reverse().map((one) => (
              <tr key={one.revision}>
                <th scope="row">{one.revision}</th>
                <td>{`${one.at.toISOString().slice(0, 16).replace('T', ' ')} UTC`}</td>
                <td>{names.get(one.author) ?? 'someone no longer here'}</td>
                <td>{one.reason ?? 'added'}</td>
                <td>{pieceStage(one, today)}</td>
                <td>{one.delivered ? showDay(one.delivered) : '–'}</td>
                <td>{one.fit ? `${showDay(one.fit.day)}, ${one.fit.outcome}` : one.firstFit ? showDay(one.firstFit) : '–'}</td>
                <td>{one.firstWorn ? showDay(one.firstWorn) : '–'}</td>
                <td>{one.retired ? `${showDay(one.retired)}, ${one.retiredReason ?? ''}` : '–'}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}

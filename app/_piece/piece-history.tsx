import { HistoryTable } from '@/app/_shell/history-table';
import type { KeptPiece } from '@/db/patients/read-pieces';
import { pieceStage } from '@/lib/garments/piece-stage';
import { type CalendarDay, showDay } from '@/lib/units/calendar-day';

/** Every state a piece has been in, and what stood then. */
export function PieceHistory({
  revisions,
  names,
  today,
  timeZone,
}: {
  revisions: readonly KeptPiece[];
  names: ReadonlyMap<string, string>;
  today: CalendarDay;
  timeZone: string;
}) {
  const dayOf = (day: CalendarDay | null): string => (day ? showDay(day) : '–');
  return (
    <section aria-labelledby="history-head">
      <h2 id="history-head" className="section-head">
        History
      </h2>
      <HistoryTable
        revisions={revisions}
        names={names}
        timeZone={timeZone}
        first="added"
        more={[
          { head: 'Stood as', show: (one) => pieceStage(one, today) },
          { head: 'Delivered', show: (one) => dayOf(one.delivered) },
          { head: 'First fit', show: (one) => (one.fit ? `${showDay(one.fit.day)}, ${one.fit.outcome}` : dayOf(one.firstFit)) },
          { head: 'First worn', show: (one) => dayOf(one.firstWorn) },
          { head: 'Out of use', show: (one) => (one.retired ? `${showDay(one.retired)}, ${one.retiredReason ?? ''}` : '–') },
        ]}
      />
    </section>
  );
}

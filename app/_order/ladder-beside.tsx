import { StaticMarkup } from '@/app/_markup/static-markup';
import { type DrawnRung, RowOutline } from '@/app/_picture/row-outline';
import { ColumnHeads } from '@/app/_shell/column-heads';
import type { KeptRecord } from '@/db/patients/records';
import type { CutLadder } from '@/lib/forms/read-cut';
import type { Ladder } from '@/lib/ladder/ladder';
import { limbInWords } from '@/lib/ladder/limb';
import { countedFrom } from '@/lib/ladder/place-on-tape';
import { tapedLine } from '@/lib/ladder/taped-line';
import { sheetRows } from '@/lib/orders/printed-rows';
import { isNoAnswer } from '@/lib/outcome';
import type { ProposedRoom } from '@/lib/record/order';
import { type CalendarDay, showDay } from '@/lib/units/calendar-day';
import { nameOf } from '@/lib/units/read-length';
import { showLength } from '@/lib/units/show-length';
import styles from './order-form.module.css';
import type { RoomOfForm } from './start-order';

/** Ladders shown beside a form, the newest first; an older one is rarely ordered from. */
const MOST_BESIDE = 4;
const ROW_PX = 30;

/** The ladders that an order is most often made to, by the key of their choice, each as it is shown beside the form; `room` is what is proposed for the form as it starts, `without` the same ladder for other figures. */
export function laddersBeside(record: KeptRecord, choices: readonly CutLadder[], room: RoomOfForm) {
  const proposed = room.kind === 'found' && !isNoAnswer(room.room) ? { cutFrom: room.cutFrom, places: room.room.places } : undefined;
  return choices.slice(0, MOST_BESIDE).flatMap(({ key, visitId, limb, side, day, madeTo }) => {
    const visit = record.visits.find((one) => one.visitId === visitId);
    const ladder = madeTo ? undefined : visit?.ladders.find((one) => one.limb === limb && one.side === side);
    if (!ladder) return [];
    const places = proposed?.cutFrom === key ? proposed.places : [];
    const without = <LadderBeside key={key} ladder={ladder} day={day} room={[]} />;
    return [{ key, shown: places.length > 0 ? <LadderBeside key={key} ladder={ladder} day={day} room={places} /> : without, without }];
  });
}

/** One ladder beside the form of an order: side and unit as on the printed sheet, outline, girths as typed, and the room proposed at each place. */
function LadderBeside({ ladder, day, room }: { ladder: Ladder; day: CalendarDay; room: ProposedRoom['places'] }) {
  const { unit, limb, side } = ladder;
  const rows = sheetRows(ladder, null, room);
  const upward = ladder.direction === 'up' ? [...rows].reverse() : rows;
  const withRoom = rows.some(({ roomMm }) => roomMm !== null);
  const landmarks = [...tapedLine(ladder).landmarks];
  const rungs = upward.flatMap(({ girthMm, placeMm, roomMm }, row): DrawnRung[] =>
    girthMm === null ? [] : [{ placeMm, girthMm, row, beforeMm: null, roomMm }],
  );
  return (
    <>
      <p className={styles.sideFrame}>
        <strong>{limbInWords(limb, side)}</strong>
        <span>{nameOf(unit)}</span>
      </p>
      <div className={`panel ${styles.ladder}`}>
        <h2>{`The ladder of ${showDay(day)}, ${unit}`}</h2>
        <div className={`${styles.ladderRows} scroll-across`}>
          <RowOutline
            side={side}
            rungs={rungs}
            landmarksMm={landmarks.map(([, placeMm]) => placeMm)}
            rows={upward.length}
            rowPx={ROW_PX}
            narrow
          />
          <StaticMarkup as="table">
            <caption className="visually-hidden">{`Towards the trunk at the top; places ${countedFrom(ladder)} and girths in ${nameOf(unit)}, as typed.`}</caption>
            <thead>
              <tr>
                <ColumnHeads of={withRoom ? ['Place', 'Girth', 'Room'] : ['Place', 'Girth']} numeric />
              </tr>
            </thead>
            <tbody>
              {upward.map(({ distance, girth, landmark, roomMm }) => (
                <tr key={distance.typed}>
                  <th scope="row" className="numeric">
                    {distance.typed}
                  </th>
                  <td className="numeric">{girth ? <strong>{girth.typed}</strong> : (landmark ?? '–')}</td>
                  {withRoom && <td className="numeric">{roomMm === null ? '' : showLength(roomMm, unit)}</td>}
                </tr>
              ))}
            </tbody>
          </StaticMarkup>
        </div>
        <p className="secondary">
          {withRoom
            ? 'Girths as typed. Room: for the order as this form starts, what is likely to be needed at each place (middle estimate, relaxed width); drawn four times as wide.'
            : 'Girths as typed.'}
        </p>
      </div>
    </>
  );
}

import type { ReactNode } from 'react';
import { StaticMarkup } from '@/app/_markup/static-markup';
import { type DrawnRung, RowOutline } from '@/app/_picture/row-outline';
import { ColumnHeads } from '@/app/_shell/column-heads';
import type { KeptRecord } from '@/db/patients/records';
import { type CutLadder, cutKey } from '@/lib/forms/read-cut';
import { GARMENT_FORMS, type GarmentSpec, type OwnForm } from '@/lib/garment-forms/garment-catalogue';
import type { Ladder } from '@/lib/ladder/ladder';
import { limbInWords } from '@/lib/ladder/limb';
import { countedFrom } from '@/lib/ladder/place-on-tape';
import { tapedLine } from '@/lib/ladder/taped-line';
import { furtherLadders } from '@/lib/orders/order-set';
import { sheetRows } from '@/lib/orders/printed-rows';
import type { ProposedRoom } from '@/lib/record/order';
import { type CalendarDay, showDay } from '@/lib/units/calendar-day';
import { nameOf } from '@/lib/units/read-length';
import { showLength } from '@/lib/units/show-length';
import styles from './order-form.module.css';
import type { RoomOnLadder } from './room-as-typed';

/** Ladders shown beside a form, the newest first; an older one is rarely ordered from. */
const MOST_BESIDE = 4;
const ROW_PX = 30;

/** A ladder as it is shown beside a form. */
export type BesideForm = {
  /** The choice of the form that it belongs to. */
  readonly key: string;
  /** With the room that is proposed on it for the figures that the form starts from; `without` for other figures. */
  readonly shown: ReactNode;
  readonly without: ReactNode;
  /** Of each form of garment that is made to more than this ladder: the keys of the further ones that the visit has. */
  readonly further: Readonly<Record<string, readonly string[]>>;
};

/** The ladders that an order is most often made to, by the key of their choice, with those that a garment over more than one limb is made to beside them. */
export function laddersBeside(
  record: KeptRecord,
  choices: readonly CutLadder[],
  rooms: readonly RoomOnLadder[],
  ownForms: readonly OwnForm[],
): BesideForm[] {
  const garments: readonly Pick<GarmentSpec, 'form' | 'own'>[] = [
    ...GARMENT_FORMS.map(({ id }) => ({ form: id })),
    ...ownForms.map((own) => ({ form: own.id, own })),
  ];
  return choices
    .filter(({ day }, index) => index < MOST_BESIDE || day === choices[0]?.day)
    .flatMap(({ key, visitId, limb, side, day, madeTo }): BesideForm[] => {
      const visit = record.visits.find((one) => one.visitId === visitId);
      const ladder = madeTo ? undefined : visit?.ladders.find((one) => one.limb === limb && one.side === side);
      if (!visit || !ladder) return [];
      const further = garments.flatMap((garment) => {
        const also = furtherLadders({ limb, side, garment }, visit);
        return also.length > 0 ? [[garment.form, also.map((one) => cutKey(visitId, one, false))] as const] : [];
      });
      const places = rooms.find((one) => one.key === key)?.places ?? [];
      const without = <LadderBeside key={key} ladder={ladder} day={day} room={[]} />;
      const shown = places.length > 0 ? <LadderBeside key={key} ladder={ladder} day={day} room={places} /> : without;
      return [{ key, shown, without, further: Object.fromEntries(further) }];
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
            ? 'Girths as typed. Room: for the figures the form starts from, what is likely to be needed at each place (middle estimate, relaxed width); drawn four times as wide.'
            : 'Girths as typed.'}
        </p>
      </div>
    </>
  );
}

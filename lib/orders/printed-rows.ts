import { toEarlier } from '../alignment/align-ladders';
import { girthNear } from '../ladder/girth-at';
import type { Ladder } from '../ladder/ladder';
import { placeInWords } from '../ladder/limb';
import { placeOf } from '../ladder/taped-line';
import type { ProposedRoom } from '../record/order';
import type { LimbChange } from '../trend/limb-change';
import { inUnit, type LengthUnit, mm, type TypedLength } from '../units/length';
import { showLength } from '../units/show-length';

/** A length in both units: as typed in its own, converted in the other. */
export type BothUnits = { readonly typed: string; readonly unit: LengthUnit; readonly other: string; readonly otherUnit: LengthUnit };

/** One row of an order sheet's figures: a place on the ladder with its girth, landmarks at it, and what was sent there last time. */
export type SheetRow = {
  readonly distance: BothUnits;
  /** Place along the limb, mm, rising towards the trunk. */
  readonly placeMm: number;
  readonly girth: BothUnits | null;
  readonly girthMm: number | null;
  readonly landmark: string | null;
  /** Distance from the girth before, mm, and whether it is not the ladder's usual interval. */
  readonly intervalMm: number | null;
  readonly oddInterval: boolean;
  /** Girth of the last order's ladder at the same anatomy, mm; null where it was not taped or there is none. */
  readonly beforeMm: number | null;
  /** Room proposed at this place, mm of relaxed width; null where none was worked out. */
  readonly roomMm: number | null;
};

/**
 * The rows of an order sheet from the ladder as it was sent, from zero on; landmarks between rungs have rows of their own without a girth.
 *
 * Shape: the frozen ladder; the change from the last order's ladder to this one, or null; the room proposed by place. Texts as typed, the other unit converted for
 * showing only. Example: 7 3/4 in stands beside 19.7 cm.
 */
export function sheetRows(ladder: Ladder, since: LimbChange | null, room: ProposedRoom['places'] = []): SheetRow[] {
  const landmarkAt = new Map(ladder.landmarks.map((one) => [one.distance.nm as number, placeInWords(one.landmark)]));
  const bare = ladder.landmarks
    .filter((one) => !ladder.rungs.some((rung) => rung.distance.nm === one.distance.nm))
    .map((one) => ({ distance: one.distance, girth: null }));
  const rows = [...ladder.rungs, ...bare].sort((one, other) => one.distance.nm - other.distance.nm);
  const usual = usualIntervalNm(ladder);
  return rows.map(({ distance, girth }, index) => {
    const before = girth ? rows.slice(0, index).findLast((row) => row.girth) : undefined;
    const intervalNm = before ? distance.nm - before.distance.nm : null;
    return {
      distance: bothUnits(distance),
      placeMm: placeOf(ladder, mm(distance.nm)),
      girth: girth && bothUnits(girth),
      girthMm: girth && mm(girth.nm),
      landmark: landmarkAt.get(distance.nm) ?? null,
      intervalMm: intervalNm === null ? null : intervalNm / 1e6,
      oddInterval: intervalNm !== null && usual !== null && Math.abs(intervalNm - usual) > 1000,
      beforeMm: since && girth ? girthBefore(since, ladder, mm(distance.nm)) : null,
      roomMm: girth ? roomAt(room, placeOf(ladder, mm(distance.nm))) : null,
    };
  });
}

/** A length in its own unit as typed and in the other as a tape shows it. */
export function bothUnits(length: TypedLength): BothUnits {
  const otherUnit: LengthUnit = length.unit === 'in' ? 'cm' : 'in';
  return { typed: length.text, unit: length.unit, other: showLength(mm(length.nm), otherUnit, 16), otherUnit };
}

/** The interval most rungs of a ladder stand apart, in its unit, or null below three rungs. Example: rungs at 0, 1½, 3, 4½ in → 1.5. */
export function usualInterval(ladder: Ladder): number | null {
  const nm = usualIntervalNm(ladder);
  return nm === null ? null : inUnit(nm / 1e6, ladder.unit);
}

function usualIntervalNm({ rungs }: Ladder): number | null {
  const counts = new Map<number, number>();
  for (let rung = 1; rung < rungs.length; rung++) {
    const gap = (rungs[rung]?.distance.nm ?? 0) - (rungs[rung - 1]?.distance.nm ?? 0);
    counts.set(gap, (counts.get(gap) ?? 0) + 1);
  }
  const most = [...counts].sort((one, other) => other[1] - one[1])[0];
  return rungs.length >= 3 && most ? most[0] : null;
}

/** Places are the same where they are less than half a millimetre apart. */
function roomAt(room: ProposedRoom['places'], placeMm: number): number | null {
  return room.find((one) => Math.abs(one.placeMm - placeMm) < 0.5)?.middleMm ?? null;
}

function girthBefore(since: LimbChange, ladder: Ladder, distanceMm: number): number | null {
  const { line } = since.earlier.placed;
  const place = toEarlier(since.alignment, placeOf(ladder, distanceMm));
  return girthNear(line.placesMm, line.girthsMm, place) ?? null;
}

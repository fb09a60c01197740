import { girthNear } from '../ladder/girth-at';
import { placeOf } from '../ladder/taped-line';
import type { Policy } from '../limits/policy';
import { isNoAnswer } from '../outcome';
import { limbChange, samePlace } from './limb-change';
import { heightOnLimb } from './limb-series';
import type { LimbSeries, SeriesVisit } from './series-visit';

/** One girth in the table: as typed at that visit, where it was taped, and its change at the same anatomy since a base visit. */
export type GirthCell = {
  readonly text: string;
  readonly girthMm: number;
  /** Height of the tape mark at its own visit, mm above the distal landmark. */
  readonly takenAtMm: number;
  /** Girth here over the girth of the base visit at the same anatomy, less one; null at the base or where it was not taped. */
  readonly change: number | null;
};

/** A place down the side of the table (a rung of the newest ladder) with a cell for each visit, oldest first; null where not taped near it. */
export type GirthRow = { readonly heightMm: number; readonly cells: readonly (GirthCell | null)[] };

/** What a change is counted from. */
export type ChangeBase = 'first' | 'before' | SeriesVisit;

/**
 * Girths of a limb by place across visits, places down the side and a column a visit, as paper charts have it.
 *
 * A cell shows the girth as typed at the rung whose anatomy lies nearest the newest ladder's place (within half an interval); its change is
 * taken at exactly the same anatomy, so growth in length is out of it. Shape: a series, the policy, the base of change; mm and shares.
 */
export function girthByPlace(series: LimbSeries, policy: Policy, base: ChangeBase): GirthRow[] {
  const newest = series.visits.at(-1);
  if (!newest) return [];
  const columns = series.visits.map((visit, index) => {
    const against = base === 'first' ? series.visits[0] : base === 'before' ? series.visits[index - 1] : base;
    return { visit, onNewest: placeMap(visit, newest, series, policy), change: changeMap(against, visit, series, policy) };
  });
  const places = newest.placed.line.placesMm;
  return places
    .map((place, rung) => {
      const reach =
        Math.min(
          ...[places[rung - 1], places[rung + 1]].map((other) =>
            other === undefined ? Number.POSITIVE_INFINITY : Math.abs(other - place),
          ),
        ) / 2;
      return {
        heightMm: heightOnLimb(newest, place),
        cells: columns.map((column) => cellAt(column, place, Number.isFinite(reach) ? reach : 0)),
      };
    })
    .reverse();
}

type Column = { readonly visit: SeriesVisit; readonly onNewest: readonly number[]; readonly change: (placeMm: number) => number | null };

function cellAt({ visit, onNewest, change }: Column, place: number, reach: number): GirthCell | null {
  let nearest = -1;
  for (let rung = 0; rung < onNewest.length; rung++) {
    const off = Math.abs((onNewest[rung] as number) - place);
    if (off <= reach && (nearest < 0 || off < Math.abs((onNewest[nearest] as number) - place))) nearest = rung;
  }
  if (nearest < 0) return null;
  const own = visit.placed.line.placesMm[nearest] as number;
  const rung = visit.ladder.rungs.find((one) => Math.abs(placeOf(visit.ladder, one.distance.nm / 1e6) - own) < 1e-6);
  const girthMm = visit.placed.line.girthsMm[nearest] as number;
  return { text: rung?.girth?.text ?? '', girthMm, takenAtMm: heightOnLimb(visit, own), change: change(own) };
}

/** Each rung of a visit on the newest ladder's ruler; empty when the two cannot be aligned. */
function placeMap(visit: SeriesVisit, newest: SeriesVisit, series: LimbSeries, policy: Policy): number[] {
  if (visit === newest) return [...visit.placed.line.placesMm];
  const change = limbChange(visit, newest, series.limb, policy);
  return isNoAnswer(change) ? [] : visit.placed.line.placesMm.map((place) => samePlace(change, place));
}

function changeMap(
  base: SeriesVisit | undefined,
  visit: SeriesVisit,
  series: LimbSeries,
  policy: Policy,
): (placeMm: number) => number | null {
  if (!base || base === visit || base.placed.day >= visit.placed.day) return () => null;
  const change = limbChange(base, visit, series.limb, policy);
  if (isNoAnswer(change)) return () => null;
  const places = base.placed.line.placesMm.map((place) => samePlace(change, place));
  return (placeMm) => {
    const before = girthNear(places, base.placed.line.girthsMm, placeMm);
    const now = girthNear(visit.placed.line.placesMm, visit.placed.line.girthsMm, placeMm);
    return before === undefined || now === undefined ? null : now / before - 1;
  };
}

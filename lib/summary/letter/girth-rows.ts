import { toEarlier } from '../../alignment/align-ladders';
import { placeCovariance } from '../../alignment/place-covariance';
import { girthNear, rungBelow } from '../../ladder/girth-at';
import { placeInWords } from '../../ladder/limb';
import { placeOf, type TapedLine } from '../../ladder/taped-line';
import type { Policy } from '../../limits/policy';
import { REACH_95 } from '../../statistics/reach-95';
import { type LimbChange, tensionBetween } from '../../trend/limb-change';
import { tapeErrorOf } from '../../trend/limb-series';
import { mm, type TypedLength } from '../../units/length';
import type { TapeError } from '../../volume/tape-error';

/** A girth as it stands on record. */
type Rung = { readonly distance: TypedLength; readonly girth: TypedLength };

/** One place of the new ladder with its girth and the girth of the old ladder at the same anatomy; null where the old one does not reach. */
export type GirthPair = {
  readonly distance: TypedLength;
  /** The landmark at this rung, in words, or null. */
  readonly landmark: string | null;
  readonly now: TypedLength;
  readonly nowMm: number;
  readonly beforeMm: number | null;
  /** Where it does not reach: the old girth on record nearest to the place, as typed, on other anatomy; null where none lies near. */
  readonly recorded: Rung | null;
  /** Half of the 95 % range of the change, mm; null where there is none. */
  readonly errorMm: number | null;
};

/**
 * Girths old and new at the same anatomy, a row for each girth of the new ladder, from its zero on.
 *
 * Variance of a change = σ² (1 + s² + (1 − s)²) + 2 (δ C)² + (dC/dz)² var(z): reading at the new rung and at the two old rungs the old girth
 * lies between (share s), tape tension at both visits (C the mean girth), and where the place lies on the old ladder. Error = 1.96 SD.
 * Shape: a change of one limb, the clinic's policy; mm. Source: engine sections 3 and 4, first-order error propagation.
 * Example: old girths 300 and 320 at 100 and 140 mm, the same place at 120 mm: 310 mm, the slope 0.5.
 */
export function girthRows(change: LimbChange, policy: Policy): GirthPair[] {
  const { ladder } = change.later;
  const tape = tapeErrorOf(policy);
  const tension = tensionBetween(change.sameMeasurer, tape);
  const { line } = change.earlier.placed;
  return ladder.rungs.flatMap(({ distance, girth }) => {
    if (!girth) return [];
    const nowMm: number = mm(girth.nm);
    const place = toEarlier(change.alignment, placeOf(ladder, mm(distance.nm)));
    const beforeMm = girthNear(line.placesMm, line.girthsMm, place) ?? null;
    const landmark = ladder.landmarks.find((one) => one.distance.nm === distance.nm)?.landmark;
    const placeVariance = placeCovariance(change.alignment, place, place);
    const errorMm = beforeMm === null ? null : REACH_95 * sdOfChange(line, place, (beforeMm + nowMm) / 2, placeVariance, tape, tension);
    const recorded = beforeMm === null ? nearestRung(change, place) : null;
    return [{ distance, landmark: landmark ? placeInWords(landmark) : null, now: girth, nowMm, beforeMm, recorded, errorMm }];
  });
}

/** The rung of the old ladder nearest to a place of its line, no farther than the ladder's own steps are apart. */
function nearestRung({ earlier: { ladder } }: LimbChange, place: number): Rung | null {
  const rungs = ladder.rungs.flatMap(({ distance, girth }) =>
    girth ? [{ distance, girth, off: Math.abs(placeOf(ladder, mm(distance.nm)) - place) }] : [],
  );
  const [nearest] = [...rungs].sort((one, other) => one.off - other.off);
  const steps = rungs.map(({ distance }, index) =>
    index === 0 ? 0 : Math.abs(mm(distance.nm) - mm(rungs[index - 1]?.distance.nm ?? distance.nm)),
  );
  return nearest && nearest.off <= Math.max(...steps) ? { distance: nearest.distance, girth: nearest.girth } : null;
}

function sdOfChange(
  { placesMm, girthsMm }: TapedLine,
  place: number,
  girthMm: number,
  placeVariance: number,
  tape: TapeError,
  tension: number,
): number {
  const lower = Math.min(Math.max(rungBelow(placesMm, place), 0), placesMm.length - 2);
  const from = placesMm[lower] as number;
  const apart = (placesMm[lower + 1] as number) - from;
  const share = Math.min(Math.max((place - from) / apart, 0), 1);
  const slope = ((girthsMm[lower + 1] as number) - (girthsMm[lower] as number)) / apart;
  const reading = tape.readingMm ** 2 * (1 + share * share + (1 - share) ** 2);
  return Math.sqrt(reading + 2 * (tension * girthMm) ** 2 + slope * slope * placeVariance);
}

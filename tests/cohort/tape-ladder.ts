import type { Ladder } from '@/lib/ladder/ladder';
import { LIMBS, type Side } from '@/lib/ladder/limb';
import { asNanometres, type LengthUnit, NANOMETRES_IN, type TypedLength } from '@/lib/units/length';
import type { LimbShape } from './dense-limb';
import { anatomyOf } from './limb-shape';
import type { Random } from './random';

/** How a limb is taped: the true errors of one visit, and the set-up. */
export type Taping = {
  readonly unit: LengthUnit;
  readonly intervalMm: number;
  readonly direction: 'up' | 'down';
  readonly landmarks: 'all' | 'zero only';
  readonly readingSdMm: number;
  /** Share of readings whose error is three times as wide; none when left out. */
  readonly wildReadings?: number;
  readonly placementSdMm: number;
  /** Share of girth that this visit's tension adds. */
  readonly tension: number;
  /** A blunder: zero this much nearer the trunk than its landmark, mm. */
  readonly movedZeroMm: number;
  /** Where zero lies off its landmark, mm towards the trunk, exactly; left out: by placement error and blunder. */
  readonly zeroOffMm?: number;
};

/** The limb as it truly is at a visit: a shape stretched and swollen. */
export type TrueLimb = { readonly shape: LimbShape; readonly stretch: number; readonly factor: (place: number) => number };

/** A ladder beside what only the simulation knows: where its zero truly lay, mm above the true distal landmark. */
export type TapedTruly = { readonly ladder: Ladder; readonly zeroMm: number };

/** A ladder as a therapist would have written it, with the errors of `taping` in it and figures rounded to 1/8 in or 0.1 cm. */
export function tapeLadder(limb: TrueLimb, side: Side, taping: Taping, random: Random): TapedTruly {
  const { shape, stretch } = limb;
  const [distal, middle, proximal] = LIMBS[shape.limb].landmarks;
  const zeroMm = taping.zeroOffMm ?? random.normal(taping.placementSdMm) + taping.movedZeroMm;
  const up = taping.direction === 'up';
  const start = up ? zeroMm : shape.proximalMm * stretch + zeroMm;
  const lengthMm = shape.proximalMm * stretch;
  const girthAtTruth = (truthMm: number): number => {
    const place = truthMm / stretch;
    return shape.girthMm(place) * limb.factor(anatomyOf(shape, place));
  };
  const rungs: { distance: TypedLength; girth: TypedLength }[] = [];
  for (let step = up ? 1 : 0; step * taping.intervalMm <= lengthMm - (up ? 0 : 60); step++) {
    const distanceMm = step * taping.intervalMm;
    const truth = up ? start + distanceMm : start - distanceMm;
    const girth =
      girthAtTruth(truth) * (1 + taping.tension) +
      random.normal(taping.readingSdMm * (taping.wildReadings && random.uniform() < taping.wildReadings ? 3 : 1));
    rungs.push({ distance: typed(distanceMm, taping.unit, true), girth: typed(girth, taping.unit, false) });
  }
  const marks = [
    { landmark: distal, truth: 0 },
    { landmark: middle, truth: shape.middleMm * stretch },
    { landmark: proximal, truth: lengthMm },
  ].filter(({ landmark }) => landmark !== (up ? distal : proximal));
  const landmarks = marks.map(({ landmark, truth }) => {
    const seen = truth + random.normal(taping.placementSdMm);
    return { landmark, distance: typed(Math.abs(seen - start), taping.unit, false) };
  });
  const ladder: Ladder = {
    limb: shape.limb,
    side,
    zero: up ? distal : proximal,
    direction: taping.direction,
    unit: taping.unit,
    rungs,
    landmarks: taping.landmarks === 'all' ? landmarks : [],
    floorToFold: null,
  };
  return { ladder, zeroMm: start };
}

/** A length as written on a sheet: 1/8 in or 0.1 cm, or exact where a grid is meant. */
export function typed(lengthMm: number, unit: LengthUnit, exact: boolean): TypedLength {
  const stepNm = exact ? 1 : Number(NANOMETRES_IN[unit]) / (unit === 'in' ? 8 : 10);
  const nm = Math.round((lengthMm * 1e6) / stepNm) * stepNm;
  return { text: String(nm / Number(NANOMETRES_IN[unit])), unit, nm: asNanometres(nm) };
}

import { type Alignment, toLater } from '../alignment/align-ladders';
import { type CubicPoint, cubicAt, monotoneCubic } from '../alignment/monotone-cubic';
import { type LandmarkId, LIMBS } from '../ladder/limb';
import type { Policy } from '../limits/policy';
import { invertSymmetric } from '../statistics/invert-symmetric';
import type { SeriesVisit } from './series-visit';

/** How a limb is divided for the model: by the rungs of its first ladder. */
export type DividedLimb = {
  readonly anchor: SeriesVisit;
  /** The landmark between the parts; null where the middle of the ladder divides them; undefined where it is not divided. */
  readonly at: LandmarkId | null | undefined;
  /** Part of each rung of the first ladder: 0 far, 1 near; all 0 where it is not divided. */
  readonly partOf: readonly number[];
  readonly parts: number;
};

/** Mean log girth of each part of a limb at a visit against the first ladder, with what weight and height explain taken out. */
export type PartGirths = {
  readonly girths: readonly (number | null)[];
  readonly covariance: readonly (readonly number[])[];
  /** Share of the volume that both ladders tape which lies in the far part. */
  readonly farShare: number;
};

/** A part with fewer rungs than this hangs on single readings. Clinic default. */
const FEWEST_RUNGS = 3;
/** Beside reading error, a limb's shape itself varies from rung to rung and visit to visit by about this share of girth. Clinic default. */
const SHAPE_SHARE = 0.005;
/** A zero that lies this far beyond its prior (deviance) was moved: the girths then decide where it lay, SD in mm. As `BLUNDER` of `alignment/shift-models`. */
const MOVED = { deviance: 6, sdMm: 25 };
/** No limb becomes this much larger or smaller: such a ladder reads in the other unit (ln 2.54 = 0.93). Clinic default. */
const OTHER_UNIT = 0.5;
/** The fit goes round so many times: the place found moves the girths that are compared. */
const ROUNDS = 2;

/**
 * Where the parts of a limb meet: at the middle landmark if both sides of it were taped well enough, else half-way, else nowhere.
 *
 * Example: a leg taped from ankle to fold with the knee marked: at the knee.
 */
export function divideLimb(anchor: SeriesVisit): DividedLimb {
  const { placesMm } = anchor.placed.line;
  const [, middle] = LIMBS[anchor.ladder.limb].landmarks;
  const landmark = anchor.placed.landmarks.get(middle)?.placeMm;
  const half = ((placesMm[0] ?? 0) + (placesMm.at(-1) ?? 0)) / 2;
  const divides = (placeMm: number | undefined): placeMm is number =>
    placeMm !== undefined &&
    placesMm.filter((place) => place < placeMm).length >= FEWEST_RUNGS &&
    placesMm.filter((place) => place >= placeMm).length >= FEWEST_RUNGS;
  const placeMm = divides(landmark) ? landmark : divides(half) ? half : undefined;
  return {
    anchor,
    at: placeMm === undefined ? undefined : placeMm === landmark ? middle : null,
    partOf: placesMm.map((place) => (placeMm !== undefined && place >= placeMm ? 1 : 0)),
    parts: placeMm === undefined ? 1 : 2,
  };
}

/** What a fit of one ladder needs: where the first ladder's anatomy lies on it, ln of what the body explains by rung of that, whether its zero may have moved. */
export type Fitted = {
  readonly later: SeriesVisit;
  readonly alignment: Alignment;
  readonly expected: readonly number[];
  readonly mayBeMoved: boolean;
};

/**
 * The mean log girth of each part of a limb at one visit, on the anatomy of its first ladder, the place of the zero fitted with it.
 *
 * At each rung r of the first ladder: ln g(z_r + s + κ(z_r − z̄)) = ln a_r + expected_r + β_part(r) + error, g the visit's girths (monotone cubic), z_r
 * where the landmarks put the rung. By generalised least squares over the rungs with s ~ N(0, half the landmarks' variance), or 2.5 cm where
 * it lies too far out for that, and κ (stretch) as the alignment leaves it: girths say where a zero lay better than marks on the skin do.
 * Error of a rung: √(reading² + (0.5 % of girth)²) / girth; a ladder of fewer rungs counts for fewer. A part half of which was taped holds the
 * other half's reading error too.
 * Shape: natural logarithms; null for a part of which fewer than two rungs were taped, undefined where none was or the unit is another. The first ladder itself gives 0 with its own errors.
 * Source: Gauss–Newton with Gaussian priors; what a part's mean is worth follows from the normal equations.
 * Example: every girth 5 % larger at the same places: ln 1.05 in both parts.
 */
export function partGirths(limb: DividedLimb, fitted: Fitted | undefined, policy: Policy): PartGirths | undefined {
  const first = limb.anchor.placed.line;
  const rungs = fitted ? rungsOf(first.placesMm, first.girthsMm, fitted) : sameRungs(first.placesMm, first.girthsMm);
  const has = [0, 1].map((part) => rungs.filter(({ rung }) => limb.partOf[rung] === part).length);
  const parts = [0, 1].slice(0, limb.parts).filter((part) => (has[part] as number) >= 2);
  if (parts.length === 0) return undefined;
  const used = rungs.filter(({ rung }) => parts.includes(limb.partOf[rung] as number));
  const centre = used.reduce((sum, { placeMm }) => sum + placeMm, 0) / used.length;
  const own = fitted?.later.placed.line.placesMm.length ?? used.length;
  const inside = fitted ? Math.min(own, countInside(fitted, used)) : used.length;
  const worth = Math.min(inside / used.length, 1);
  const [placeVariance, stretchVariance] = priorsOf(limb, fitted, policy);
  const setting = { centre, worth, placeVariance, stretchVariance, readingMm: policy.readingSdMm };
  const usual = fitParts(used, parts, limb, setting);
  const place = usual?.mean[parts.length] ?? 0;
  const moved = fitted?.mayBeMoved && place ** 2 > MOVED.deviance * placeVariance;
  const solved = moved ? fitParts(used, parts, limb, { ...setting, placeVariance: MOVED.sdMm ** 2 }) : usual;
  if (!solved || parts.some((_, row) => Math.abs(solved.mean[row] as number) > OTHER_UNIT)) return undefined;
  const girths = [0, 1].slice(0, limb.parts).map((part) => {
    const row = parts.indexOf(part);
    return row < 0 ? null : (solved.mean[row] as number);
  });
  const covariance = [0, 1].slice(0, limb.parts).map((one) =>
    [0, 1].slice(0, limb.parts).map((other) => {
      const [row, column] = [parts.indexOf(one), parts.indexOf(other)];
      if (row < 0 || column < 0) return one === other ? 1 : 0;
      const missing = one === other ? unsharedVariance(limb, one, has[one] as number, policy.readingSdMm) : 0;
      return ((solved.covariance[row] as number[])[column] as number) + missing;
    }),
  );
  return { girths, covariance, farShare: farShareOf(limb, used) };
}

/** A rung of the first ladder: its number, where it should lie on the visit's ruler, what girth is expected there, and the visit's girths. */
type Rung = {
  readonly rung: number;
  readonly placeMm: number;
  readonly lnBase: number;
  readonly girthMm: number;
  readonly at: (placeMm: number) => CubicPoint;
};

function rungsOf(placesMm: readonly number[], girthsMm: readonly number[], { later: visit, alignment, expected }: Fitted): Rung[] {
  const later = visit.placed.line;
  const cubic = monotoneCubic(later.placesMm, later.girthsMm);
  const into: CubicPoint = { girthMm: 0, slope: 0 };
  const at = (placeMm: number): CubicPoint => cubicAt(cubic, placeMm, into);
  const [lowest, highest] = [later.placesMm[0] as number, later.placesMm.at(-1) as number];
  return placesMm.flatMap((place, rung) => {
    const placeMm = toLater(alignment, place);
    // Half a centimetre beyond the outer rung is read along the end slope: a zero put a little further in loses no rung.
    if (placeMm < lowest - 5 || placeMm > highest + 5) return [];
    const girthMm = girthsMm[rung] as number;
    return [{ rung, placeMm, lnBase: Math.log(girthMm) + (expected[rung] as number), girthMm, at }];
  });
}

function sameRungs(placesMm: readonly number[], girthsMm: readonly number[]): Rung[] {
  const cubic = monotoneCubic(placesMm, girthsMm);
  const into: CubicPoint = { girthMm: 0, slope: 0 };
  const at = (placeMm: number): CubicPoint => cubicAt(cubic, placeMm, into);
  return placesMm.map((placeMm, rung) => ({
    rung,
    placeMm,
    lnBase: Math.log(girthsMm[rung] as number),
    girthMm: girthsMm[rung] as number,
    at,
  }));
}

/** How many rungs of the visit's own ladder lie among those of the first that are used. */
function countInside({ later }: Fitted, used: readonly Rung[]): number {
  const [from, to] = [(used[0] as Rung).placeMm, (used.at(-1) as Rung).placeMm];
  return later.placed.line.placesMm.filter((place) => place >= from - 5 && place <= to + 5).length;
}

/** Variances of the zero's place (mm²) and of the stretch (share²) at one of the two visits: half of what the alignment leaves for both. */
function priorsOf(limb: DividedLimb, fitted: Fitted | undefined, policy: Policy): readonly [number, number] {
  if (!fitted) {
    const taped = [...limb.anchor.placed.landmarks.values()].filter(({ inferred }) => !inferred).length;
    return [policy.placementSdMm ** 2 / Math.max(taped, 1), 1e-6];
  }
  const { covariance, earlierMm, ratioSd } = fitted.alignment;
  const last = covariance.length - 1;
  const place = covariance.reduce((sum, row, knot) => sum + (row[knot] as number), 0) / covariance.length / 2;
  const of = (row: number, column: number): number => covariance[row]?.[column] as number;
  const apart = (earlierMm[last] as number) - (earlierMm[0] as number);
  const stretch = last > 0 ? (of(0, 0) + of(last, last) - 2 * of(0, last)) / apart ** 2 : ratioSd ** 2;
  return [place, stretch / 2];
}

type Setting = {
  readonly centre: number;
  readonly worth: number;
  readonly placeVariance: number;
  readonly stretchVariance: number;
  readonly readingMm: number;
};

function fitParts(used: readonly Rung[], parts: readonly number[], limb: DividedLimb, setting: Setting) {
  const size = parts.length + 2;
  let place = 0;
  let stretch = 0;
  let solved: { mean: number[]; covariance: number[][] } | undefined;
  for (let round = 0; round < ROUNDS; round++) {
    const information = Array.from({ length: size }, () => new Array<number>(size).fill(0));
    const target = new Array<number>(size).fill(0);
    const x = [1, 0, 0];
    const at = [0, size - 2, size - 1];
    for (const one of used) {
      const along = one.placeMm - setting.centre;
      const { girthMm, slope } = one.at(one.placeMm + place + stretch * along);
      if (!(girthMm > 0)) return undefined;
      const steep = slope / girthMm;
      const y = Math.log(girthMm) - one.lnBase - steep * (place + stretch * along);
      at[0] = parts.indexOf(limb.partOf[one.rung] as number);
      x[1] = -steep;
      x[2] = -steep * along;
      const weight = setting.worth / ((setting.readingMm / one.girthMm) ** 2 + SHAPE_SHARE ** 2);
      for (let row = 0; row < 3; row++) {
        const to = at[row] as number;
        const pull = weight * (x[row] as number);
        target[to] = (target[to] as number) + pull * y;
        const cells = information[to] as number[];
        for (let column = 0; column < 3; column++)
          cells[at[column] as number] = (cells[at[column] as number] as number) + pull * (x[column] as number);
      }
    }
    const cells = information as [number[], ...number[][]];
    (cells[size - 2] as number[])[size - 2] = ((cells[size - 2] as number[])[size - 2] as number) + 1 / setting.placeVariance;
    (cells[size - 1] as number[])[size - 1] = ((cells[size - 1] as number[])[size - 1] as number) + 1 / setting.stretchVariance;
    const covariance = invertSymmetric(information);
    if (!covariance) return undefined;
    const mean = covariance.map((row) => row.reduce((sum, value, column) => sum + value * (target[column] as number), 0));
    solved = { mean, covariance };
    place = mean[size - 2] as number;
    stretch = mean[size - 1] as number;
  }
  return solved;
}

/** Reading error of the rungs that one ladder has of a part and the other has not, as it stands in the part's mean. */
function unsharedVariance(limb: DividedLimb, part: number, taped: number, readingMm: number): number {
  const { girthsMm } = limb.anchor.placed.line;
  const all = girthsMm.filter((_, rung) => limb.partOf[rung] === part);
  const rung = all.reduce((sum, girth) => sum + (readingMm / girth) ** 2, 0) / all.length + SHAPE_SHARE ** 2;
  return rung * (1 / taped - 1 / all.length);
}

function farShareOf(limb: DividedLimb, used: readonly Rung[]): number {
  if (limb.parts === 1) return 1;
  const { placesMm } = limb.anchor.placed.line;
  let far = 0;
  let all = 0;
  for (const { rung, girthMm } of used) {
    const reach = ((placesMm[rung + 1] ?? placesMm[rung]) as number) - ((placesMm[rung - 1] ?? placesMm[rung]) as number);
    const volume = girthMm ** 2 * reach;
    all += volume;
    if (limb.partOf[rung] === 0) far += volume;
  }
  return all > 0 ? far / all : 0.5;
}

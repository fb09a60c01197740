import type { TapedLine } from '../ladder/taped-line';
import type { NoAnswer } from '../outcome';
import { limbVolume } from './limb-volume';
import { type Span, spanVolume } from './span-volume';
import type { TapeError } from './tape-error';

/** Rungs of one limb on a ruler that both limbs share. */
type Rungs = Pick<TapedLine, 'placesMm' | 'girthsMm'>;

/** Volumes of an affected limb (A) and the other one (U) over one stretch, in one unit. */
export type SideVolumes = { readonly affected: number; readonly other: number };

/** A stretch of the limb between two rungs: how much larger it is, mm³ and as a share of the other limb there. */
export type SegmentExcess = { readonly span: Span; readonly mm3: number; readonly share: number };

/** How much larger an affected limb is than the other one, with one standard deviation of each figure. */
export type ExcessVolume = {
  readonly volumes: SideVolumes;
  /** A − U, mm³. */
  readonly mm3: number;
  readonly sdMm3: number;
  /** (A − U) / U. */
  readonly share: number;
  readonly shareSd: number;
  /** From the far end; their mm³ add up to the whole. */
  readonly segments: readonly SegmentExcess[];
};

/** SD of tape tension as a share of girth on each limb; `common` where one person taped both, so that it pulls both alike. */
export type SideTension = { readonly affected: number; readonly other: number; readonly common: boolean };

/**
 * Excess volume over a stretch that both limbs tape: A − U in mm³, (A − U) / U as a share, whole and between the affected limb's rungs.
 *
 * SD of mm³ = √(var A + var U + tension), var of reading and placement; tension = (2δ (A − U))² where it is common, else (2δA)² + (2δU)².
 * SD of the share = (A / U) √(var ln A + var ln U + tension), where a common tension falls out.
 * Shape: rungs of both limbs on one upward ruler (mm), a span inside both. Refuses by name a span that is empty or reaches past either.
 * Source: excess volume as published for limb swelling; first-order error propagation.
 * Example: 3,300 ml and 3,000 ml: 300 ml, 10 %.
 */
export function excessVolume(affected: Rungs, other: Rungs, span: Span, tape: TapeError, tension: SideTension): ExcessVolume | NoAnswer {
  const own = ownVolume(affected, span, tape);
  const reference = ownVolume(other, span, tape);
  if (!own || !reference) return { noAnswer: 'The two limbs have no stretch in common.' };
  const [a, u] = [own.mm3, reference.mm3];
  const [pullA, pullU] = [2 * tension.affected, 2 * tension.other];
  const tensionMm3 = tension.common ? pullA * (a - u) : Math.hypot(pullA * a, pullU * u);
  const tensionShare = tension.common ? 0 : Math.hypot(pullA, pullU);
  return {
    volumes: { affected: a, other: u },
    mm3: a - u,
    sdMm3: Math.hypot(own.sdMm3, reference.sdMm3, tensionMm3),
    share: a / u - 1,
    shareSd: (a / u) * Math.hypot(own.sdMm3 / a, reference.sdMm3 / u, tensionShare),
    segments: segmentsOf(affected, other, span),
  };
}

/** Volume and SD of reading and placement; `limbVolume` takes whole ladders, whose landmarks say nothing here. */
function ownVolume({ placesMm, girthsMm }: Rungs, span: Span, tape: TapeError) {
  const volume = limbVolume({ placesMm, girthsMm, landmarks: new Map() }, tape, 0, span);
  return 'noAnswer' in volume ? undefined : { mm3: volume.volumeMl * 1000, sdMm3: volume.sdMl * 1000 };
}

function segmentsOf(affected: Rungs, other: Rungs, { fromMm, toMm }: Span): SegmentExcess[] {
  const ends = [fromMm, ...affected.placesMm.filter((place) => place > fromMm && place < toMm), toMm];
  return ends.slice(1).flatMap((end, index) => {
    const span = { fromMm: ends[index] as number, toMm: end };
    const [a, u] = [affected, other].map((one) => spanVolume(one.placesMm, one.girthsMm, span));
    return a === undefined || u === undefined ? [] : [{ span, mm3: a - u, share: a / u - 1 }];
  });
}

/** How much of a first excess is gone, as a share of it, by both published formulas. They differ: 70 % and 50 % for one patient. */
export type ExcessReduction = {
  /** 1 − (A₂ − U₂) / (A₁ − U₁): the other limb of the same day. */
  readonly sameDay: number;
  /** (A₁ − A₂) / (A₁ − U₁): the other limb as it was at first. */
  readonly fixed: number;
};

/**
 * How much of a first excess is gone: sameDay = 1 − (A₂ − U₂) / (A₁ − U₁); fixed = (A₁ − A₂) / (A₁ − U₁).
 *
 * Shape: volumes at first and now, in one unit; shares of the first excess, negative where it has grown.
 * Refuses by name a first excess that is nought or less: no share of it is defined. Source: both are published reductions of excess volume.
 * Example: A 3,300 → 3,150, U 3,000 → 3,060 ml: 70 % by the other limb of the same day, 50 % by the other limb at first.
 */
export function excessReduction(first: SideVolumes, now: SideVolumes): ExcessReduction | NoAnswer {
  const excess = first.affected - first.other;
  if (!(excess > 0)) return { noAnswer: 'The limb was not larger than the other one at first, so no share of a first excess can be gone.' };
  return { sameDay: 1 - (now.affected - now.other) / excess, fixed: (first.affected - now.affected) / excess };
}

/**
 * Relative volume change, A₂U₁ / (U₂A₁) − 1: the change of the affected limb with the other limb's own change taken out.
 *
 * Shape: volumes at first and now, above nought, in one unit. Source: Ancukiewicz 2011, doi 10.1016/j.ijrobp.2010.01.001.
 * Example: A 3,300 → 3,150, U 3,000 → 3,060 ml: −6.417 %.
 */
export function relativeVolumeChange(first: SideVolumes, now: SideVolumes): number {
  return (now.affected * first.other) / (now.other * first.affected) - 1;
}

/**
 * Weight-adjusted change, A₂W₁ / (W₂A₁) − 1: for a limb whose other limb is affected too.
 *
 * Shape: volume ratio now / first and weight ratio now / first, above nought. Source: Miller 2013, from memory.
 * Example: 3,300 → 3,150 ml at 60 → 63 kg: −9.091 %.
 */
export function weightAdjustedChange(volumeRatio: number, weightRatio: number): number {
  return volumeRatio / weightRatio - 1;
}

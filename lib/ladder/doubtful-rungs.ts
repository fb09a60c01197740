import { type LengthUnit, mm, type TypedLength } from '../units/length';
import { showLength, showLengthWithUnit, showTapedLength } from '../units/show-length';
import { isAcknowledged } from './acknowledged';
import type { Doubt } from './doubt';
import { askAboutEnd, isTooSteep } from './end-rungs';
import type { Ladder, Rung } from './ladder';
import { distalLandmark, type LimbKind } from './limb';
import { SLIP_WORDS, usualSlip } from './slip';

/**
 * Girths observed in healthy people of two years and more, mm: outside these a second reading is asked for.
 *
 * Source: smallest and largest values in ANSUR II 2012, NHANES 2003–2006, Snyder 1977 and Slack 1997. A swollen limb may be larger.
 */
const OBSERVED_GIRTHS_MM: Readonly<Record<LimbKind, { readonly least: number; readonly most: number }>> = {
  leg: { least: 121, most: 948 },
  arm: { least: 92, most: 624 },
};

/**
 * How far a girth may lie from the line between its neighbours before it is asked about, as a share.
 *
 * 6 % at 1 in, 8 % at 4 cm, 10 % at 5 cm gaps, linear between, never below 5 %; wider gaps bend with the limb: 30 % at 10 cm, at most 35 %.
 * Source: simulated slips on dense leg profiles with 0.3 cm of reading noise; one false question in thirty ladders at 4 cm.
 */
function neighbourLimit(gapMm: number): number {
  if (gapMm <= 50) return Math.max(0.06 + ((gapMm - 25.4) / (50 - 25.4)) * 0.04, 0.05);
  return Math.min(0.1 + ((gapMm - 50) / 50) * 0.2, 0.35);
}

/**
 * Questions that one ladder raises by itself: rungs against their neighbours, girths outside all that is known, a girth at a joint.
 *
 * The rung furthest from the line between its neighbours is asked about first and then left out, so that one slip raises one question.
 * A doubt that was asked and kept is not raised again. `milder` widens the neighbour limit, for a swollen limb.
 * Shape: a ladder; doubts with distances in mm from its zero.
 * Source: see `neighbourLimit`, `OBSERVED_GIRTHS_MM`; no girth at the ankle crease of a ladder taped upward: common practice.
 * Example: 7¾, 8¼, 9¼ … 21⅛ between 11¼ and 13 in: "21⅛ or 12⅛?".
 */
export function doubtfulRungs(ladder: Ladder, milder = 1): Doubt[] {
  const taped = ladder.rungs.flatMap((rung) => (rung.girth ? [{ rung, girth: rung.girth, atMm: mm(rung.distance.nm) as number }] : []));
  taped.sort((one, other) => one.atMm - other.atMm);
  const off = offTheLine(ladder, taped, milder);
  const beyond = outOfRange(ladder, taped).filter((doubt) => !off.some((one) => one.distanceMm === doubt.distanceMm));
  const doubts = [...jointGirths(ladder), ...off, ...beyond];
  return doubts.filter((doubt) => !isAcknowledged(ladder, doubt));
}

type Taped = {
  readonly rung: Rung;
  readonly girth: TypedLength;
  readonly atMm: number;
};

function offTheLine(ladder: Ladder, taped: readonly Taped[], milder: number): Doubt[] {
  const doubts: Doubt[] = [];
  let trusted = [...taped];
  while (trusted.length >= 3) {
    const worst = furthestFromLine(trusted, milder);
    if (!worst) break;
    const end = endToBlame(ladder, trusted, worst.odd, milder);
    doubts.push(end ? askAboutEnd(ladder, end.odd, end.neighbour) : askAbout(worst.odd, worst.expectedMm, worst.neighbour, ladder.unit));
    trusted = trusted.filter((one) => one !== (end?.odd ?? worst.odd));
  }
  return doubts;
}

/** An outer rung makes its neighbour look odd: it is to blame when it is too steep from it and all others agree without it. */
function endToBlame(ladder: Ladder, trusted: readonly Taped[], odd: Taped, milder: number): { odd: Taped; neighbour: Taped } | undefined {
  for (const [outer, inner] of [
    [trusted[0], trusted[1]],
    [trusted.at(-1), trusted.at(-2)],
  ] as [Taped, Taped][]) {
    if (inner !== odd || !isTooSteep(ladder, outer, inner)) continue;
    const others = trusted.filter((one) => one !== outer);
    const next = outer === trusted[0] ? others[1] : others.at(-2);
    if (!furthestFromLine(others, milder) && next && !isTooSteep(ladder, inner, next)) return { odd: outer, neighbour: inner };
  }
  return undefined;
}

function furthestFromLine(taped: readonly Taped[], milder: number): { odd: Taped; expectedMm: number; neighbour: Taped } | undefined {
  let worst: { odd: Taped; expectedMm: number; neighbour: Taped; excess: number } | undefined;
  for (let at = 1; at + 1 < taped.length; at++) {
    const [below, here, above] = [taped[at - 1], taped[at], taped[at + 1]] as [Taped, Taped, Taped];
    const gap = above.atMm - below.atMm;
    const share = (here.atMm - below.atMm) / gap;
    const expectedMm = mm(below.girth.nm) + share * (mm(above.girth.nm) - mm(below.girth.nm));
    const off = Math.abs(mm(here.girth.nm) / expectedMm - 1);
    const excess = off / (milder * neighbourLimit(gap / 2));
    if (excess > 1 && (!worst || excess > worst.excess)) worst = { odd: here, expectedMm, neighbour: below, excess };
  }
  return worst;
}

function askAbout(odd: Taped, expectedMm: number, neighbour: Taped, unit: LengthUnit): Doubt {
  const place = showLengthWithUnit(odd.atMm, unit);
  const shown = showTapedLength(mm(odd.girth.nm), unit);
  const beside = `The rung before it is ${showTapedLength(mm(neighbour.girth.nm), unit)}.`;
  const slip = usualSlip(odd.girth, expectedMm, 0.05);
  if (!slip) {
    return {
      kind: 'neighbours',
      distanceMm: odd.atMm,
      message: `${place}: ${shown}? Its neighbours lead one to expect about ${showLength(expectedMm, unit)}.`,
    };
  }
  const would = showTapedLength(slip.girthMm, unit);
  return {
    kind: slip.kind,
    distanceMm: odd.atMm,
    message: `${place}: ${shown} or ${would}? ${beside} ${SLIP_WORDS[slip.kind] ?? ''}`.trim(),
    wouldFitMm: slip.girthMm,
  };
}

function outOfRange(ladder: Ladder, taped: readonly Taped[]): Doubt[] {
  const { least, most } = OBSERVED_GIRTHS_MM[ladder.limb];
  return taped
    .filter(({ girth }) => mm(girth.nm) < least || mm(girth.nm) > most)
    .map(({ girth, atMm }) => ({
      kind: 'out-of-range' as const,
      distanceMm: atMm,
      message: `${showLengthWithUnit(atMm, ladder.unit)}: ${showTapedLength(mm(girth.nm), ladder.unit)}? Girths of a healthy ${ladder.limb} run from ${showLength(least, ladder.unit)} to ${showLengthWithUnit(most, ladder.unit)}.`,
    }));
}

/** Whether a girth was taken at the ankle crease, zero of a leg's ladder taped upward. Who did so at the last visit is not asked again why. */
export function hasGirthAtJoint({ limb, direction, zero, rungs }: Ladder): boolean {
  if (direction !== 'up' || zero !== distalLandmark(limb) || limb !== 'leg') return false;
  return rungs.some((rung) => rung.girth && rung.distance.nm === 0);
}

function jointGirths(ladder: Ladder): Doubt[] {
  if (!hasGirthAtJoint(ladder)) return [];
  return [
    {
      kind: 'girth-at-joint',
      distanceMm: 0,
      message: 'A girth at the ankle crease? It is a joint; a ladder measured upward has its first girth one interval above it.',
    },
  ];
}

import { type ReferenceLine, type TapedRung, tapedRungs } from '../alignment/reference-line';
import { anatomicalPlace } from '../growth/anatomical-place';
import { lastVisitLine, otherLimbLine, type TapingDay } from '../growth/expected-ladder';
import { usualShapeLine } from '../growth/usual-shape';
import { isAcknowledged } from '../ladder/acknowledged';
import { crossExamined, doubtfulPlaces, withoutRungs } from '../ladder/cross-examined';
import type { Doubt } from '../ladder/doubt';
import { DOUBT_LIMITS } from '../ladder/doubt-limits';
import { doubtfulRungs } from '../ladder/doubtful-rungs';
import { endRungDoubt } from '../ladder/end-rungs';
import { floorCheck } from '../ladder/floor-check';
import type { Ladder } from '../ladder/ladder';
import { distalLandmark, type Side } from '../ladder/limb';
import { secondTapingDoubts } from '../ladder/second-taping';
import { sizeCheck } from '../ladder/size-check';
import { placeOf, tapedLine } from '../ladder/taped-line';
import { zeroAndDirection } from '../ladder/zero-and-direction';
import { doubtsAgainst } from './doubts-against';
import { doubtOfOrder } from './doubts-of-order';
import { doubtOfCopy, doubtOfUnit } from './doubts-of-whole';
import type { LimbOnSheet } from './limb-on-sheet';
import { sidesChanged } from './sides-changed';

/** A question and the side it is about. */
export type SheetDoubt = { readonly side: Side; readonly doubt: Doubt };

/**
 * Every question that the figures typed so far raise, the same on the sheet and on the server.
 *
 * A rung has at most one question. What explains several rungs at once (other unit, order, sides) is asked in place of them. A rung
 * that fits the last visit is not asked about for its neighbours' sake. Kept questions are not raised again. A rung with an open question
 * lends nothing to any other: see `crossExamined`; nor is it held against the other limb.
 * Shape: one or two limbs of one kind, the day; doubts in the order of the sides and then of distance, whole-ladder ones first.
 * Source: `DOUBT_LIMITS`, `SPREAD`, and the files of the single questions.
 */
export function sheetDoubts(limbs: readonly LimbOnSheet[], today: TapingDay): SheetDoubt[] {
  const changedRound = sidesChanged(limbs, today);
  if (changedRound) return limbs.slice(0, 1).map(({ ladder }) => ({ side: ladder.side, doubt: changedRound }));
  let before: Before | undefined;
  return limbs.flatMap((limb) => {
    const { ladder } = limb;
    const ask = (one: Ladder) =>
      sideDoubts(prepared({ ...limb, ladder: one }, before, today), before, today).filter((doubt) => !isAcknowledged(ladder, doubt));
    const doubts = crossExamined(ladder, ask);
    if (!before && ladder.rungs.some((rung) => rung.girth))
      before = { limb, trusted: withoutRungs(ladder, doubtfulPlaces(doubts)), rungs: tapedRungs(ladder) };
    return doubts.map((doubt) => ({ side: ladder.side, doubt }));
  });
}

/** The limb that was measured first: all its rungs, and its ladder without those that are asked about. */
type Before = { readonly limb: LimbOnSheet; readonly trusted: Ladder; readonly rungs: readonly TapedRung[] };

type Prepared = {
  readonly limb: LimbOnSheet;
  readonly rungs: readonly TapedRung[];
  readonly reference: ReferenceLine | undefined;
};

function prepared(limb: LimbOnSheet, before: Before | undefined, today: TapingDay): Prepared {
  const byLast = limb.last && lastVisitLine(limb.last, limb.ladder, today, limb.affected);
  const byOther = before && otherLimbLine(before.trusted, limb.ladder, today.tape, limb.affected || before.limb.affected);
  const byShape = usualShapeLine(limb.ladder, today, limb.affected);
  return { limb, rungs: tapedRungs(limb.ladder), reference: byLast ?? byOther ?? byShape };
}

function sideDoubts({ limb, rungs, reference }: Prepared, before: Before | undefined, today: TapingDay): Doubt[] {
  const { ladder, affected } = limb;
  const beside = reference?.kind === 'neighbours' ? undefined : reference;
  /** Where zero and direction cannot be, nobody knows the place of a girth, and so not what is usual there. */
  const unit = zeroAndDirection(ladder) ? undefined : doubtOfUnit(rungs, beside, ladder.limb, ladder.unit, placesOn(ladder, today));
  if (unit) return isAcknowledged(ladder, unit) ? lengthDoubts(ladder, today) : [unit];
  const whole = [...copies(limb, rungs, before), ...lengthDoubts(ladder, today)];
  const milder = (affected ? DOUBT_LIMITS.swollen.value : 1) * (reference?.kind === 'neighbours' ? DOUBT_LIMITS.usualShape.value : 1);
  const against = reference ? doubtsAgainst(rungs, reference, ladder.unit, milder) : undefined;
  const odd = new Set(against?.doubts.flatMap(({ distanceMm }) => (distanceMm === null ? [] : [distanceMm])));
  const ordered = reference && reference.kind !== 'neighbours' ? reference : undefined;
  const order = ordered && doubtOfOrder(rungs, limb.rowsMm, ordered, ladder.unit, odd);
  const explained = (doubt: Doubt) => doubt.distanceMm !== null && (order?.explains(doubt.distanceMm) ?? false);
  const single = (against?.doubts ?? []).filter((doubt) => !explained(doubt));
  const own = ownDoubts(ladder, rungs, affected).filter((doubt) => {
    if (doubt.kind === 'girth-at-joint') return !limb.last?.girthAtJoint;
    const taken = single.some((one) => one.distanceMm === doubt.distanceMm) || explained(doubt);
    return !taken && !(doubt.distanceMm !== null && against?.fitting.has(doubt.distanceMm));
  });
  const ofRungs = [...(order ? [order.doubt] : []), ...single, ...own, ...secondTapingDoubts(ladder)];
  return [...whole, ...onePerRung(ofRungs)];
}

/** Questions the ladder raises by itself; in a swollen limb a rung may stand out further from its neighbours before it is asked about. */
function ownDoubts(ladder: Ladder, rungs: readonly TapedRung[], affected: boolean): Doubt[] {
  const newest = rungs.at(-1);
  const end = newest && endRungDoubt(ladder, newest.atMm);
  if (!affected) return [...doubtfulRungs(ladder), ...(end ? [end] : [])];
  const ends = end && end.kind !== 'neighbours' ? [end] : [];
  return [...doubtfulRungs(ladder, DOUBT_LIMITS.swollenNeighbours.value), ...ends].filter((doubt) => doubt.kind !== 'out-of-range');
}

function copies(limb: LimbOnSheet, rungs: readonly TapedRung[], before: Before | undefined): Doubt[] {
  const { ladder, last } = limb;
  const sign = ladder.direction === 'up' ? 1 : -1;
  const then = last && new Map(last.girthsNm.map(([place, nm]) => [sign * place, nm]));
  const there = before && new Map(before.rungs.map((rung) => [rung.atMm, rung.girth.nm as number]));
  return [
    then && doubtOfCopy(rungs, then, 'equals-last-visit', ladder.limb),
    there && doubtOfCopy(rungs, there, 'equals-other-limb', ladder.limb),
  ].filter((doubt) => doubt !== undefined);
}

function lengthDoubts(ladder: Ladder, today: TapingDay): Doubt[] {
  const heightMm = today.body.heightMm?.value;
  return [zeroAndDirection(ladder), floorCheck(ladder, heightMm), sizeCheck(ladder, heightMm)].filter((doubt) => doubt !== undefined);
}

/** Anatomical place of a distance on this ladder's ruler, by its landmarks so far and the body. */
function placesOn(ladder: Ladder, today: TapingDay): (distanceMm: number) => number {
  const { landmarks } = tapedLine(ladder);
  const known = landmarks.size > 0 ? landmarks : new Map([[distalLandmark(ladder.limb), 0]]);
  const place = anatomicalPlace(ladder.limb, (landmark) => known.get(landmark), today.body.heightMm?.value);
  return (distanceMm) => place(placeOf(ladder, distanceMm));
}

function onePerRung(doubts: readonly Doubt[]): Doubt[] {
  const byRung = new Map<number | null, Doubt>();
  const slipsFirst = [...doubts].sort((one, other) => Number(one.wouldFitMm === undefined) - Number(other.wouldFitMm === undefined));
  for (const doubt of slipsFirst) if (!byRung.has(doubt.distanceMm)) byRung.set(doubt.distanceMm, doubt);
  return [...byRung.values()].sort((one, other) => (one.distanceMm ?? -1) - (other.distanceMm ?? -1));
}

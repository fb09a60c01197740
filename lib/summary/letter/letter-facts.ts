import type { PatientAnalysis } from '../../analysis/analyse-patient';
import { type LimbExcess, limbExcess } from '../../analysis/limb-excess';
import { keptAs, pieceStage } from '../../garments/piece-stage';
import { coverKey, daysWorn, inUse, wearDays } from '../../garments/wear';
import { changeSinceCut } from '../../orders/last-of-place';
import { isNoAnswer } from '../../outcome';
import { garmentSet, isOfSet } from '../../record/garment-needs';
import type { Order } from '../../record/order';
import { limbOf, type PatientRecord, type Piece, type Visit } from '../../record/patient-record';
import type { LimbClock, PatientCoverage } from '../../schedule/coverage-of-patient';
import { REACH_95 } from '../../statistics/reach-95';
import { type LimbChange, tensionBetween } from '../../trend/limb-change';
import { tapeErrorOf } from '../../trend/limb-series';
import { ratioSd } from '../../trend/measured-change';
import type { CalendarDay } from '../../units/calendar-day';
import { limbVolume } from '../../volume/limb-volume';
import type { Span } from '../../volume/span-volume';
import { type ShownPhase, shownPhases } from '../phase-words';
import { type GirthPair, girthRows } from './girth-rows';
import { type MeasurePair, measurePairs } from './measure-pairs';

/** What an order says of the piece that is asked for. */
export type AskedOrder = Pick<Order, 'order' | 'cutFrom' | 'covers' | 'garment' | 'quantity' | 'limb' | 'side' | 'state' | 'ordered'>;

/** A piece, with the words it was retired with where there are some. */
export type LetterPiece = Piece & { readonly retiredReason?: string | null };

/** A volume of the shared stretch at one visit, ml, and half of its 95 % range. */
export type LetterVolume = { readonly volumeMl: number; readonly errorMl: number };

/** How the limb measured on the day the piece was cut from and on the new ladder's day. */
export type LetterEvidence = {
  readonly change: LimbChange;
  readonly girths: readonly GirthPair[];
  readonly before: LetterVolume | null;
  readonly now: LetterVolume | null;
  /** Volume of the shared stretch, new over old, less one. */
  readonly volumeChange: number;
  /** A change below this share cannot be told from tape error: 1.96 SD of the volume ratio. */
  readonly smallestRealChange: number;
};

/** Everything a letter says of the record. Nothing here was judged by a rule. */
export type LetterFacts = {
  readonly reference: string;
  readonly name: string | null;
  readonly born: CalendarDay;
  readonly affected: PatientRecord['affected'];
  readonly affectedParts: PatientRecord['affectedParts'];
  readonly today: CalendarDay;
  /** The phase of the course today with its baseline; null where none holds the day. */
  readonly phase: ShownPhase | null;
  readonly piece: LetterPiece;
  readonly stage: string;
  readonly daysWorn: number | null;
  readonly wearDays: number | null;
  /** Pieces of the same cover in turn today, this one among them. */
  readonly inTurn: number;
  readonly order: AskedOrder | null;
  /** The visit the piece was cut from, and the one of the new ladder; null where the record has none. */
  readonly cutVisit: Visit | null;
  readonly newVisit: Visit | null;
  readonly evidence: LetterEvidence | null;
  /** Named measures of the piece’s hand, foot or trunk that both visits have. */
  readonly measures: readonly MeasurePair[];
  /** Against the healthy other limb on the new ladder's day; null where that cannot be said. */
  readonly excess: LimbExcess | null;
  readonly coverage: { readonly rule: PatientCoverage['rule']; readonly from: CalendarDay; readonly clocks: readonly LimbClock[] } | null;
};

type From = {
  readonly analysis: PatientAnalysis;
  readonly name: string | null;
  readonly piece: LetterPiece;
  /** Orders of the patient, in their order. */
  readonly orders: readonly AskedOrder[];
  readonly coverage: LetterFacts['coverage'];
};

/** The visits that took a named measure of a piece's set, in their order. */
function visitsOfMeasures({ visits }: PatientRecord, piece: LetterPiece): readonly Visit[] {
  const set = piece.garment && garmentSet(piece.garment, piece);
  return set ? visits.filter(({ measures }) => measures?.some((taken) => isOfSet(set, taken))) : [];
}

/**
 * What the record holds for the letter of one piece: the order that is to replace it, its wear, and the limb then and now.
 *
 * The order is the last of the same limb that was not cancelled and is cut from a later ladder than the piece; without one the letter
 * asks for the like of the piece, and the new ladder is the newest of the limb. Of a piece made to named measures alone those stand for the ladder. Clocks are those of the piece's limb.
 */
export function letterFacts({ analysis, name, piece, orders, coverage }: From): LetterFacts {
  const { record, today } = analysis;
  const { limb, side } = piece;
  const byMeasures = piece.covers === 'measures';
  const own = limbOf(piece);
  const order =
    orders
      .filter((one) => one.limb === limb && one.side === side && one.state !== 'cancelled' && one.cutFrom > piece.cutFrom)
      .filter((one) => (one.covers === 'measures') === byMeasures)
      .at(-1) ?? null;
  const series = analysis.limbs.find((one) => one.series.limb === limb && one.series.side === side)?.series;
  const visits = byMeasures ? visitsOfMeasures(record, piece) : (series?.visits.map(({ visit }) => visit) ?? []);
  const newDay = order?.cutFrom ?? visits.at(-1)?.day;
  const visitOn = (day: CalendarDay | undefined): Visit | null => visits.find((one) => one.day === day) ?? null;
  const change = byMeasures
    ? null
    : newDay && newDay > piece.cutFrom
      ? changeSinceCut(analysis, piece, { limb, side, cutFrom: newDay })
      : null;
  const newVisit = visitOn(newDay);
  const worn = daysWorn(piece, today);
  const shared = wearDays(piece, record.pieces, today);
  const excess = newVisit && own && !byMeasures && limbExcess(analysis, own, newVisit);
  const alike = record.pieces.filter((one) => coverKey(one) === coverKey(piece));
  return {
    reference: record.reference,
    name,
    born: record.born,
    affected: record.affected,
    affectedParts: record.affectedParts,
    today,
    phase: shownPhases(analysis).find(({ current }) => current) ?? null,
    piece,
    stage: pieceStage(piece, today),
    daysWorn: isNoAnswer(worn) ? null : worn,
    wearDays: isNoAnswer(shared) ? null : Math.round(shared),
    inTurn: alike.filter(
      (one) => one.firstWorn !== null && one.firstWorn <= today && inUse(one, today) && keptAs(one, today) === 'rotation',
    ).length,
    order,
    cutVisit: visitOn(piece.cutFrom),
    newVisit,
    evidence: change && evidenceOf(change, analysis),
    measures: measurePairs(analysis, piece, visitOn(piece.cutFrom), newVisit),
    excess: excess && !isNoAnswer(excess) ? excess : null,
    coverage: coverage && { ...coverage, clocks: coverage.clocks.filter((one) => one.limb === limb && one.side === side) },
  };
}

function evidenceOf(change: LimbChange, { policy }: PatientAnalysis): LetterEvidence {
  const tape = tapeErrorOf(policy);
  const tension = tensionBetween(change.sameMeasurer, tape);
  const { shared, volume } = change.measured;
  const volumeOf = (line: LimbChange['later']['placed']['line'], span: Span): LetterVolume | null => {
    const answer = limbVolume(line, tape, tension, span);
    return isNoAnswer(answer) ? null : { volumeMl: answer.volumeMl, errorMl: REACH_95 * answer.sdMl };
  };
  return {
    change,
    girths: girthRows(change, policy),
    before: volumeOf(change.earlier.placed.line, shared.earlier),
    now: volumeOf(change.later.placed.line, shared.later),
    volumeChange: volume.ratio - 1,
    smallestRealChange: REACH_95 * ratioSd(volume),
  };
}

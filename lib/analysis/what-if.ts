import { fitToday } from '../garments/fit-today';
import { letOutMm } from '../garments/let-out';
import { outgrownChances } from '../garments/outgrow-date';
import { policyOfPiece } from '../garments/piece-band';
import { isAtHand, isAwaited, isHeldBack } from '../garments/piece-stage';
import { coverKey } from '../garments/wear';
import type { Policy } from '../limits/policy';
import { isNoAnswer, type NoAnswer } from '../outcome';
import { type Life, type Way, wayAhead } from '../service/days-without';
import { rememberedChanges } from '../trend/remembered-changes';
import { addDays, type CalendarDay, daysBetween, showDay } from '../units/calendar-day';
import { mm } from '../units/length';
import type { PatientAnalysis } from './analyse-patient';
import type { AnalysedPiece } from './analyse-piece';

/** What is tried: days of making, relaxed width let out of the pieces in use, and the days of the next visit and of the one after it. */
export type Tried = {
  readonly makingDays: number;
  readonly letOutMm: number;
  readonly nextVisit: CalendarDay;
  readonly visitAfter: CalendarDay;
};

export const WAYS = ['now', 'let-out', 'next-visit', 'wait'] as const;
export type WayId = (typeof WAYS)[number];

/** One way of going on: what it does, and what becomes of it; or why it cannot be gone. */
export type TriedWay = { readonly id: WayId; readonly orderDay: CalendarDay; readonly ahead: AheadInDays | NoAnswer };

/** A way in calendar days. */
export type AheadInDays = Omit<Way, 'lastsUntil' | 'worst'> & {
  readonly arrives: CalendarDay;
  readonly lastsUntil: CalendarDay | null;
  readonly worst: { readonly day: CalendarDay; readonly chance: number };
};

/** The ways side by side over the weeks to come. */
export type WhatIf = {
  readonly weeks: readonly CalendarDay[];
  /** Pieces in use that stand in for each other, and those that are ordered and awaited, with the day. */
  readonly pieces: readonly string[];
  readonly awaited: readonly { readonly piece: string; readonly day: CalendarDay }[];
  /** Chance that the piece has left its band by each week, as it is and let out; null where no room is left. */
  readonly outside: { readonly asItIs: readonly number[]; readonly letOut: readonly number[] | null };
  readonly ways: readonly TriedWay[];
  /** Room that can still be let out of the piece, mm. */
  readonly roomMm: number;
};

const WEEK = 7;
/** Weeks looked at at most, and days after the last arrival that are still looked at. Clinic defaults. */
const MOST_WEEKS = 26;
const AFTER_LAST = 28;
/** The outlook goes no further than this from the newest ladder, days. */
const LONGEST_DAYS = 364;

/**
 * Order now, let out and order at the next visit, order at the next visit, wait for the one after it: for each the chance of no working piece by week,
 * days without one, and what of the old pieces' life is used.
 *
 * A piece works until it is outgrown (the law of `outgrownChances`, the same as today's dates) or worn out (its end of life, ± `lifeSpreadDays`). Pieces
 * that stand in for each other fail when the last of them does; one that is ordered counts from the day it is expected. The next piece is cut like this one from the newest ladder, or from one taped at the visit
 * at which it is ordered: its outgrowing is then that of a piece cut today, so many days later. A ladder older than `orderLadderDays` is taped
 * again first, which takes `measuringDays`. Making is log-normal about the days tried, its slow tenth `makingSpreadPct` longer. Growth fast for the old piece is fast for the
 * new one. Sums over quantiles (`wayAhead`); nothing is drawn by chance, so the same arguments give the same answer.
 * Shape: an analysis, one of its pieces in use, what is tried. Refuses by name a piece that cannot be judged or is not at hand, and what `bodyOutlook` refuses.
 */
export function whatIf(analysis: PatientAnalysis, one: AnalysedPiece, tried: Tried): WhatIf | NoAnswer {
  const { policy, today, record } = analysis;
  const { piece, fit } = one;
  const series = analysis.limbs.find(({ series: { limb, side } }) => limb === piece.limb && side === piece.side)?.series;
  if (!one.inUse || !isAtHand(piece)) return { noAnswer: 'The piece is not in use.' };
  if (isNoAnswer(fit)) return fit;
  const { latest } = fit;
  const since = Math.max(daysBetween(latest.visit.day, today), 0);
  const furthest = Math.floor((LONGEST_DAYS - since) / WEEK);
  const wanted = Math.ceil((daysBetween(today, tried.visitAfter) + tried.makingDays + AFTER_LAST) / WEEK);
  const count = Math.min(wanted, MOST_WEEKS, furthest);
  if (count < 1) return { noAnswer: `The newest ladder, ${showDay(latest.visit.day)}, is too old to look ahead from: measure again.` };
  const grid = Array.from({ length: count + 1 }, (_, week) => week * WEEK);
  const members = analysis.pieces.filter(
    (other) => other.inUse && !isHeldBack(other.piece) && coverKey(other.piece) === coverKey(piece) && !isNoAnswer(other.fit),
  );
  const lives = (extraMm: number) => members.map((member) => lifeOf(member, analysis, grid, since, extraMm));
  const asIs = lives(0);
  const refused = asIs.find(isNoAnswer);
  if (refused) return refused;
  const outlet = tried.letOutMm > 0 ? lives(tried.letOutMm) : null;
  const next = { ...piece, cutFrom: latest.visit.day, cutFromVisitId: latest.visit.visitId ?? null, alterations: null, firstWorn: null };
  const cutNow = fitToday(next, series, policy, rememberedChanges(policy));
  const nextPolicy = policyOfPiece(policy, one.band);
  const afresh = Array.from({ length: Math.floor(LONGEST_DAYS / WEEK) + 1 }, (_, week) => week * WEEK);
  const chances = isNoAnswer(cutNow) ? cutNow : outgrownChances(cutNow, record, one.trend, nextPolicy, afresh);
  const roomMm = roomOf(one);
  const stale = since > policy.orderLadderDays;
  const orderNow = stale ? policy.measuringDays : 0;
  const orders: readonly (readonly [WayId, number, readonly (Life | NoAnswer)[]])[] = [
    ['now', orderNow, asIs],
    ['let-out', daysBetween(today, tried.nextVisit), outlet ?? []],
    ['next-visit', daysBetween(today, tried.nextVisit), asIs],
    ['wait', daysBetween(today, tried.visitAfter), asIs],
  ];
  const ways = orders.map(([id, orderAt, olds]): TriedWay => {
    const orderDay = addDays(today, orderAt);
    if (id === 'let-out' && roomMm <= 0) return { id, orderDay, ahead: { noAnswer: 'No room is left to let out.' } };
    if (id === 'let-out' && !outlet) return { id, orderDay, ahead: { noAnswer: 'No width is let out.' } };
    if (isNoAnswer(chances)) return { id, orderDay, ahead: chances };
    const cutAfter = id === 'now' && !stale ? -since : orderAt;
    const way = wayAhead({
      olds: olds.filter((life): life is Life => !isNoAnswer(life)),
      orderAt,
      makingDays: tried.makingDays,
      makingSpreadPct: policy.makingSpreadPct,
      lifeSpreadDays: policy.lifeSpreadDays,
      next: { grid: afresh.slice(0, chances.length).map((day) => day + cutAfter), chances, lifeDays: piece.lifeDays },
      grid,
    });
    const { lastsUntil, worst } = way;
    const ahead = {
      ...way,
      arrives: addDays(today, orderAt + tried.makingDays),
      lastsUntil: lastsUntil === null ? null : addDays(today, lastsUntil),
      worst: { day: addDays(today, worst.at), chance: worst.chance },
    };
    return { id, orderDay, ahead };
  });
  const index = members.indexOf(one);
  const letOut = outlet?.[index];
  return {
    weeks: grid.map((day) => addDays(today, day)),
    pieces: members.filter((member) => isAtHand(member.piece)).map((member) => member.piece.piece),
    awaited: members
      .filter((member) => isAwaited(member.piece))
      .map((member) => ({ piece: member.piece.piece, day: addDays(today, hereIn(member, today)) })),
    outside: { asItIs: (asIs[index] as Life).chances, letOut: letOut && !isNoAnswer(letOut) && roomMm > 0 ? letOut.chances : null },
    ways,
    roomMm,
  };
}

/** Room that was sewn in and not let out yet, mm. */
function roomOf({ piece }: AnalysedPiece): number {
  return piece.allowance ? Math.max(mm(piece.allowance.nm) - letOutMm(piece), 0) : 0;
}

/** How long a piece works from today: its chance of having left the band by each day of the grid, and its end of life; with more let out of it, as far as it has room. */
function lifeOf(
  one: AnalysedPiece,
  { record, policy, today }: { record: PatientAnalysis['record']; policy: Policy; today: CalendarDay },
  grid: readonly number[],
  since: number,
  extraMm: number,
): Life | NoAnswer {
  const { fit, piece, band, trend, endOfLife } = one;
  if (isNoAnswer(fit)) return fit;
  const extra = Math.min(extraMm, roomOf(one));
  const wider = { ...fit, places: fit.places.map((place) => ({ ...place, relaxedNowMm: place.relaxedNowMm + extra })) };
  const chances = outgrownChances(
    wider,
    record,
    trend,
    policyOfPiece(policy, band),
    grid.map((day) => day + since),
  );
  if (isNoAnswer(chances)) return chances;
  const hereAt = hereIn(one, today);
  const ends = isNoAnswer(endOfLife) ? hereAt + piece.lifeDays : daysBetween(today, endOfLife);
  const started = piece.firstWorn ? -daysBetween(piece.firstWorn, today) : hereAt;
  return { grid: grid.slice(0, chances.length), chances, wornOutAt: ends, hereAt, startedAt: started, lifeDays: piece.lifeDays };
}

/** Days until a piece is here: none for one at hand, at least one for one that is awaited, however late it is. */
function hereIn({ piece }: AnalysedPiece, today: CalendarDay): number {
  if (!isAwaited(piece)) return 0;
  return Math.max(daysBetween(today, piece.expected ?? addDays(today, piece.leadDays)), 1);
}

import type { PatientAnalysis } from '../analysis/analyse-patient';
import type { AnalysedPiece } from '../analysis/analyse-piece';
import { dayToAsk, isAtRest } from '../course/day-to-ask';
import { deathIn } from '../course/phases';
import { bookingStanding, isBookedFor } from '../diary/booking';
import { tooOldToOrder } from '../garments/figures-for-order';
import { askedBy, replyParts, whenTold } from '../observations/family-reply';
import { isNoAnswer } from '../outcome';
import { endOfFit } from '../prompts/outlook-in-words';
import { followerOf } from '../prompts/rules/order-in-time';
import { nextReview, type ReviewedRecord } from '../record/next-visit';
import type { Piece } from '../record/patient-record';
import { addDays, showDay, showShortWeekday } from '../units/calendar-day';
import { withoutFullStop } from '../units/without-full-stop';
import type { ComputedDate } from './scheduled-date';

/** An analysis whose record also says why the pieces are worn, where that is known. */
export type ScheduledAnalysis = Omit<PatientAnalysis, 'record'> & { readonly record: ReviewedRecord };

/**
 * Every date of a patient's schedule: next visit or the booked one, the end of a referral, what a family sent, remeasure before an order, order-by, delivery, first fit, early call, end of life. On hold and
 * after the end of a course the day to ask again and what a family sent alone; after a death none.
 *
 * Shape: an analysis; dates by day, then by key. Pure: the day called today comes with the analysis, in the clinic's time zone.
 * Source: the clinic's intervals (`limits/limits`), the engine's outlook, and the days written with each piece.
 * Example: taped 14 Oct 2026 at 10 years: `visit-after:2026-10-14` on 6 Jan 2027, every 84 days.
 */
export function patientSchedule(analysis: ScheduledAnalysis): ComputedDate[] {
  const phases = analysis.record.phases ?? [];
  if (isAtRest(phases, analysis.today)) return [...askDate(analysis), ...bookedAtRest(analysis), ...replyDates(analysis)];
  const dates = [
    ...visitDate(analysis),
    ...bookingDates(analysis),
    ...referralDate(analysis),
    ...replyDates(analysis),
    ...analysis.pieces.filter((one) => one.inUse).flatMap((one) => datesOfPiece(one, analysis)),
  ];
  return dates.sort((one, other) => one.computed.localeCompare(other.computed) || one.key.localeCompare(other.key));
}

function askDate({ record, policy, today }: ScheduledAnalysis): ComputedDate[] {
  const ask = dayToAsk(record.phases ?? [], policy, today);
  if (!ask) return [];
  const { phase, day } = ask;
  const why = `${phase.kind === 'on-hold' ? 'on hold' : 'ended'} since ${showDay(phase.from)}${phase.note ? `: ${phase.note.replace(/\.$/, '')}` : ''}`;
  const sources: ComputedDate['sources'] = phase.askOn || phase.until ? [] : ['holdAskDays'];
  return [{ key: `ask-again:${phase.from}`, kind: 'ask', computed: day, why, sources, limb: null, piece: null }];
}

/** Bookings that still stand while nothing is due: each says that it is to be cancelled; none after a death. */
function bookedAtRest(analysis: ScheduledAnalysis): ComputedDate[] {
  if (deathIn(analysis.record.phases ?? [])) return [];
  const ahead = bookingDates(analysis).filter(({ kind }) => kind === 'booking');
  return ahead.map((date) => ({ ...date, why: `${date.why}; the course rests: cancel it, or begin a phase` }));
}

/** Bookings that are ahead, those whose day passed without a word, and a missed one that nothing came after. */
function bookingDates({ record, today }: ScheduledAnalysis): ComputedDate[] {
  const bookings = record.bookings ?? [];
  const visitDays = new Set(record.visits.map(({ day }) => day));
  const last = [...visitDays, ...bookings.filter(({ day, state }) => state === 'booked' && day >= today).map(({ day }) => day)]
    .sort()
    .at(-1);
  return bookings.flatMap((booking): ComputedDate[] => {
    const { bookingId, day, time, what } = booking;
    const standing = bookingStanding(booking, visitDays, today);
    const about = { sources: [], limb: null, piece: null };
    const booked = `booked for ${showShortWeekday(day)}${time ? ` at ${time}` : ''}${what ? `: ${withoutFullStop(what)}` : ''}`;
    if (standing === 'ahead') return [{ key: `booking:${bookingId}`, kind: 'booking', computed: day, why: booked, time, ...about }];
    if (standing === 'not said')
      return [
        { key: `not-said:${bookingId}`, kind: 'not-said', computed: day, why: `${booked}; no visit of that day is on record`, ...about },
      ];
    if (standing !== 'missed' || (last !== undefined && last > day)) return [];
    return [{ key: `missed:${bookingId}`, kind: 'missed', computed: day, why: `${booked}; not kept`, ...about }];
  });
}

/** What a family sent that nobody answered yet, due on the day it came: who asks to be rung, and what is to be looked at; none after a death. */
function replyDates({ record, policy }: ScheduledAnalysis): ComputedDate[] {
  if (deathIn(record.phases ?? [])) return [];
  return (record.replies ?? []).flatMap((reply): ComputedDate[] => {
    const asked = askedBy(reply, policy);
    if (!asked) return [];
    const { replyId, day, answer } = reply;
    const tried = answer ? `; tried on ${showDay(answer.day)}, nobody answered` : '';
    const why = `told by the family ${whenTold(reply)}: ${replyParts(reply).map(withoutFullStop).join('; ')}${tried}`;
    const kind = asked === 'call' ? 'call-back' : 'reply';
    return [{ key: `${kind}:${replyId}`, kind, computed: day, why, sources: ['wearToldLowPct'], limb: null, piece: null }];
  });
}

/** The day to ask for the next referral: some days before it ends. */
function referralDate({ record, policy }: ScheduledAnalysis): ComputedDate[] {
  const until = record.facts?.referralUntil;
  if (!until) return [];
  const { prescriber, prescriberReach } = record.facts ?? {};
  const who = prescriber ? `; ${prescriber}${prescriberReach ? `, ${withoutFullStop(prescriberReach)}` : ''}` : '';
  const why = `the referral ends ${showDay(until)}${who}`;
  const computed = addDays(until, -policy.referralAskDays);
  return [{ key: `referral:${until}`, kind: 'referral', computed, why, sources: ['referralAskDays'], limb: null, piece: null }];
}

function visitDate({ record, policy, today }: ScheduledAnalysis): ComputedDate[] {
  const review = nextReview(record, policy, today);
  if (!review || isBookedFor(review.day, record, policy, today)) return [];
  const afterVisit = review.after === 'visit';
  return [
    {
      key: afterVisit ? `visit-after:${review.since}` : `visit-after-first-wear:${review.since}`,
      kind: 'visit',
      computed: review.day,
      why: afterVisit
        ? `every ${review.days} days, last ${showDay(review.since)}`
        : `${review.days} days after first wear of a new piece, ${showDay(review.since)}`,
      sources: [review.limit],
      limb: null,
      piece: null,
    },
  ];
}

function datesOfPiece(one: AnalysedPiece, analysis: ScheduledAnalysis): ComputedDate[] {
  const { piece, endOfLife } = one;
  const about = { limb: { limb: piece.limb, side: piece.side }, piece: piece.piece };
  const dates = [...orderDates(one, analysis), ...fittingDates(piece, analysis)];
  if (!isNoAnswer(endOfLife)) {
    const why = `${piece.lifeDays} days from first wear, ${piece.firstWorn ? showDay(piece.firstWorn) : ''}`;
    dates.push({ key: `end-of-life:${piece.piece}`, kind: 'end-of-life', computed: endOfLife, why, sources: ['piece'], ...about });
  }
  return dates;
}

/** Order by, and a fresh ladder for it where the newest will be too old by then. None where another piece of the same cover follows. */
function orderDates(one: AnalysedPiece, { pieces, policy, record, today }: ScheduledAnalysis): ComputedDate[] {
  const { piece, orderBy } = one;
  if (isNoAnswer(orderBy) || followerOf(one, pieces, today)) return [];
  const about = { limb: { limb: piece.limb, side: piece.side }, piece: piece.piece };
  const ends =
    orderBy.because === 'outgrown' && piece.covers === 'measures'
      ? `possibly outgrown by a named measure from ${showDay(orderBy.neededBy)}`
      : orderBy.because === 'outgrown' && !isNoAnswer(one.outgrow)
        ? `possibly ${endOfFit(one.outgrow)} from ${showDay(orderBy.neededBy)}`
        : `replacement due ${showDay(orderBy.neededBy)}`;
  const order: ComputedDate = {
    key: `order-by:${piece.piece}`,
    kind: 'order',
    computed: orderBy.day,
    why: `${ends}, making takes ${piece.leadDays} days, measuring ${policy.measuringDays} days`,
    sources: ['piece', 'measuringDays'],
    ...about,
  };
  const old = tooOldToOrder(record, piece, orderBy.day, policy, today);
  if (!old) return [order];
  return [
    order,
    {
      key: `remeasure-for-order:${piece.piece}`,
      kind: 'remeasure',
      computed: orderBy.day,
      why: old.why,
      sources: ['orderLadderDays', 'measuringDays', 'piece'],
      ...about,
    },
  ];
}

/** From the order to full wear: delivery awaited, first fit missing, early call not made. */
function fittingDates(piece: Piece, { policy }: ScheduledAnalysis): ComputedDate[] {
  const about = { limb: { limb: piece.limb, side: piece.side }, piece: piece.piece };
  const dates: ComputedDate[] = [];
  const wornOrHere = piece.firstWorn ?? piece.delivered ?? null;
  if (piece.expected && !wornOrHere) {
    const why = `on its way; making was to take ${piece.leadDays} days`;
    dates.push({ key: `delivery:${piece.piece}`, kind: 'delivery', computed: piece.expected, why, sources: ['piece'], ...about });
  }
  if (wornOrHere && piece.firstFit === null && !piece.fit) {
    const from = piece.firstWorn ? 'first worn' : 'delivered';
    dates.push({
      key: `first-fit:${piece.piece}`,
      kind: 'first-fit',
      computed: addDays(wornOrHere, policy.firstFitDays),
      why: `${from} ${showDay(wornOrHere)}, no check on record within ${policy.firstFitDays} days`,
      sources: ['firstFitDays'],
      ...about,
    });
  }
  if (piece.wearIn && !piece.wearIn.called) {
    const since = piece.firstWorn ? `, first worn ${showDay(piece.firstWorn)}` : '';
    const why = `wear-in from ${piece.wearIn.firstHours} to ${piece.wearIn.fullHours} h over ${piece.wearIn.days} days${since}`;
    dates.push({ key: `call:${piece.piece}`, kind: 'call', computed: piece.wearIn.callOn, why, sources: ['earlyCallDays'], ...about });
  }
  return dates;
}

import { isSettled } from '../observations/family-reply';
import type { PatientRecord } from '../record/patient-record';
import type { DateKind } from './scheduled-date';

/**
 * How a date that is no longer in the schedule came to its end: done, or cancelled because nothing is to be done any more.
 *
 * Shape: the kept key and kind, and the record as it is now. Example: `visit-after:2026-10-14` with a visit on 25 Nov is done; the
 * order-by date of a piece that was lost is cancelled.
 */
export function howItEnded({ key, kind }: { readonly key: string; readonly kind: DateKind }, record: PatientRecord): 'done' | 'cancelled' {
  if (kind === 'ask') return (record.phases ?? []).some(({ from }) => from > key.slice(key.indexOf(':') + 1)) ? 'done' : 'cancelled';
  const basis = key.slice(key.indexOf(':') + 1);
  if (kind === 'referral') return (record.facts?.referralUntil ?? basis) > basis ? 'done' : 'cancelled';
  if (kind === 'booking' || kind === 'not-said' || kind === 'missed') {
    const booking = (record.bookings ?? []).find(({ bookingId }) => bookingId === basis);
    if (kind === 'missed') return booking ? 'done' : 'cancelled';
    return booking && record.visits.some(({ day }) => day === booking.day) ? 'done' : 'cancelled';
  }
  if (kind === 'call-back' || kind === 'reply')
    return (record.replies ?? []).some((reply) => reply.replyId === basis && isSettled(reply)) ? 'done' : 'cancelled';
  if (kind === 'visit') return record.visits.some((visit) => visit.day > basis) ? 'done' : 'cancelled';
  const piece = record.pieces.find((one) => one.piece === basis);
  if (!piece) return 'cancelled';
  switch (kind) {
    case 'delivery':
      return piece.delivered || piece.firstWorn ? 'done' : 'cancelled';
    case 'first-fit':
      return piece.firstFit || piece.fit ? 'done' : 'cancelled';
    case 'call':
      return piece.wearIn?.called ? 'done' : 'cancelled';
    case 'end-of-life':
      return piece.retired ? 'done' : 'cancelled';
    case 'order':
      return record.pieces.some(
        (one) =>
          one !== piece &&
          (one.covers === 'measures') === (piece.covers === 'measures') &&
          one.limb === piece.limb &&
          one.side === piece.side &&
          one.cutFrom >= piece.cutFrom &&
          !one.retired,
      )
        ? 'done'
        : 'cancelled';
    case 'remeasure':
      return record.visits.some(
        (visit) => visit.day > piece.cutFrom && visit.ladders.some(({ limb, side }) => limb === piece.limb && side === piece.side),
      )
        ? 'done'
        : 'cancelled';
  }
}

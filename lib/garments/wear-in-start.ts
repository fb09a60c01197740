import type { Policy } from '../limits/policy';
import type { Piece } from '../record/patient-record';
import { coverKey } from './wear';

/** What stands in the boxes of a wear-in before anybody types: text, as the boxes have it. */
export type WearInBoxes = {
  readonly firstHours: string;
  readonly fullHours: string;
  readonly wearInDays: string;
  readonly callAfter: string;
};

type Wearable = Pick<Piece, 'piece' | 'garment' | 'limb' | 'side' | 'covers' | 'wearIn' | 'firstWorn' | 'retired'>;

/**
 * The wear-in that a form starts with: the clinic's, to the full hours that the record knows.
 *
 * Those are the hours of the piece of the same cover and use that was worn last, else a night's for a piece of the night, else over a scar the
 * clinic's full hours, where the order does not say that it is worn by day. Where none of these says them, the box is left open.
 * A glove says nothing of a sleeve, nor a piece of which nobody noted when it is worn.
 * Shape: a piece, the policy, the pieces of the patient, whether it is worn over a scar; whole hours and days as text. The first day is never longer than the last.
 * Source: the clinic's limits; no trial of a plan is known.
 * Example: a piece for the night: 2 to 8 hours over 14 days; one for the day after one of 12 hours: 2 to 12.
 */
export function wearInStart(piece: Wearable, policy: Policy, pieces: readonly Wearable[], overScar: boolean): WearInBoxes {
  const full = fullHoursKnown(piece, policy, pieces, overScar);
  return {
    firstHours: String(Math.min(policy.wearInFirstHours, full ?? policy.wearInFirstHours)),
    fullHours: full === undefined ? '' : String(full),
    wearInDays: String(policy.wearInDays),
    callAfter: String(policy.earlyCallDays),
  };
}

function fullHoursKnown(piece: Wearable, policy: Policy, pieces: readonly Wearable[], overScar: boolean): number | undefined {
  const use = piece.garment?.use;
  const last =
    use && wornLast(pieces.filter((one) => one.piece !== piece.piece && one.garment?.use === use && coverKey(one) === coverKey(piece)));
  if (last?.wearIn) return last.wearIn.fullHours;
  if (use === 'night') return policy.wearInNightHours;
  return overScar && use !== 'day' ? policy.wearInFullHours : undefined;
}

/** The piece that was worn last: one still in use before one that went out of it, then by first wear; undefined where none was worn. */
function wornLast(pieces: readonly Wearable[]): Wearable | undefined {
  const until = ({ retired, firstWorn }: Wearable) => `${retired ?? 'still'} ${firstWorn}`;
  return pieces.filter(({ firstWorn }) => firstWorn).sort((one, other) => (until(one) < until(other) ? 1 : -1))[0];
}

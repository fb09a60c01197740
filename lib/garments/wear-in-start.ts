import type { Policy } from '../limits/policy';
import type { Piece } from '../record/patient-record';

/** What stands in the boxes of a wear-in before anybody types: text, as the boxes have it. */
export type WearInBoxes = {
  readonly firstHours: string;
  readonly fullHours: string;
  readonly wearInDays: string;
  readonly callAfter: string;
};

/**
 * The wear-in that a form starts with: the clinic's, to the hours of a night for a piece that is worn at night.
 *
 * Shape: a piece and the policy; whole hours and days as text. The first day is never longer than the last. Source: the clinic's limits; no trial of a plan is known.
 * Example: a piece for the night: 2 to 8 hours over 14 days; one for the day: 2 to 23.
 */
export function wearInStart({ garment }: Pick<Piece, 'garment'>, policy: Policy): WearInBoxes {
  const full = garment?.use === 'night' ? policy.wearInNightHours : policy.wearInFullHours;
  return {
    firstHours: String(Math.min(policy.wearInFirstHours, full)),
    fullHours: String(full),
    wearInDays: String(policy.wearInDays),
    callAfter: String(policy.earlyCallDays),
  };
}

import type { GarmentUse } from '../garment-forms/garment-catalogue';
import { limbInWords } from '../ladder/limb';
import type { CoverageRule } from '../record/coverage';
import type { Order, OrderReason } from '../record/order';
import type { Piece, WornPlace } from '../record/patient-record';
import { type CalendarDay, showDay } from '../units/calendar-day';
import { capitalized } from '../units/capitalized';
import { type CoverageClock, coverageClock, type Issued, isException } from './coverage-clock';

/** Under which rule a patient is covered, and from which day. */
export type PatientCoverage = { readonly rule: CoverageRule; readonly from: CalendarDay };

/** A clock with the limb it counts for. */
export type LimbClock = WornPlace & { readonly clock: CoverageClock };

/** A piece that knows which order it came from. A piece whose use nobody recorded is taken for day wear. */
type Handed = Pick<Piece, 'limb' | 'side' | 'delivered' | 'firstWorn' | 'garment' | 'orderId'>;

/**
 * The payer's clocks of a patient: one for each limb that has a piece or is asked about, and each use the rule covers.
 *
 * A piece counts from its delivery, or from first wear where no delivery is on record. Shape: coverage, pieces, the reason of each order by
 * its id, the limbs to show, today; clocks by limb, then in the order of the rule.
 */
export function coverageOfPatient(
  { rule, from }: PatientCoverage,
  pieces: readonly Handed[],
  reasonOf: ReadonlyMap<string, OrderReason>,
  limbs: readonly WornPlace[],
  today: CalendarDay,
): LimbClock[] {
  return limbs.flatMap(({ limb, side }) =>
    rule.lines.map((line) => {
      const issued = pieces.flatMap((piece): Issued[] => {
        const day = piece.delivered ?? piece.firstWorn;
        if (!day || piece.limb !== limb || piece.side !== side || wornBy(piece) !== line.use) return [];
        const reason = piece.orderId ? reasonOf.get(piece.orderId) : undefined;
        return [{ day, exception: reason !== undefined && isException(rule, reason) }];
      });
      return { limb, side, clock: coverageClock(line, issued, from, today) };
    }),
  );
}

function wornBy(piece: Handed): GarmentUse {
  return piece.garment?.use ?? 'day';
}

/** A clock in one sentence: `Right leg, day: 2 of 3 used since 10 Feb 2026, 1 left.` */
export function clockInWords({ limb, side, clock }: LimbClock): string {
  const { line, used, left, from, opensOn } = clock;
  const name = limbInWords(limb, side);
  const start = `${capitalized(name)}, ${line.use}: ${used} of ${line.quantity} used since ${showDay(from)}`;
  return opensOn ? `${start}; the next is covered from ${showDay(opensOn)}.` : `${start}, ${left} left.`;
}

/** What the payer's clock asks of an order: null where it is covered, or stands under an exception of the rule. */
export function coverageQuestion(
  order: Pick<Order, 'limb' | 'side' | 'garment' | 'quantity' | 'reasonCode'>,
  coverage: PatientCoverage,
  clocks: readonly LimbClock[],
): { readonly key: string; readonly message: string } | null {
  if (isException(coverage.rule, order.reasonCode)) return null;
  const clock = clocks.find((one) => one.limb === order.limb && one.side === order.side && one.clock.line.use === order.garment.use);
  if (!clock)
    return {
      key: `coverage none ${order.garment.use}`,
      message: `${coverage.rule.payer} has no line for a piece worn by ${order.garment.use}.`,
    };
  const { left, opensOn, line } = clock.clock;
  if (left >= order.quantity) return null;
  const until = opensOn ? `; the next is covered from ${showDay(opensOn)}` : '';
  return {
    key: `coverage ${line.use} ${left} ${order.quantity} ${opensOn ?? ''}`,
    message: `${coverage.rule.payer} covers ${left} more now, this order is for ${order.quantity}${until}.`,
  };
}

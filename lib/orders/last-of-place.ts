import type { PatientAnalysis } from '../analysis/analyse-patient';
import { coverKey } from '../garments/wear';
import { isNoAnswer } from '../outcome';
import type { Order } from '../record/order';
import type { Piece } from '../record/patient-record';
import { type CutPointer, visitCutFrom } from '../record/visit-cut-from';
import { type LimbChange, limbChange } from '../trend/limb-change';

/** The piece an order is compared with: of the same limb, as it made to a ladder or to named measures alone, the same cover before another, then the one cut last; none of the order's own. */
export function lastOfPlace<P extends Piece>(
  pieces: readonly P[],
  order: Pick<Order, 'limb' | 'side' | 'covers' | 'cutFrom' | 'garment'>,
  orderId: string | null,
): P | undefined {
  const rank = (one: P): string => `${coverKey(one) === coverKey(order) ? 1 : 0} ${one.cutFrom} ${one.piece.padStart(8, '0')}`;
  return pieces
    .filter(
      (one) =>
        (one.covers === 'measures') === (order.covers === 'measures') &&
        one.limb === order.limb &&
        one.side === order.side &&
        (orderId === null || one.orderId !== orderId) &&
        one.cutFrom <= order.cutFrom,
    )
    .sort((one, other) => rank(one).localeCompare(rank(other)))
    .at(-1);
}

/** The change of the limb from one cut-from day to another, on the same anatomy; null where it is the same ladder or they cannot be compared. */
export function changeSinceCut(
  analysis: PatientAnalysis,
  before: Piece,
  order: Pick<Order, 'limb' | 'side'> & CutPointer,
): LimbChange | null {
  const series = analysis.limbs.find((one) => one.series.limb === order.limb && one.series.side === order.side)?.series;
  const [earlier, later] = [before, order].map((cut) => series && visitCutFrom(series.visits, cut));
  if (!earlier || !later || earlier === later) return null;
  const change = limbChange(earlier, later, later.ladder.limb, analysis.policy);
  return isNoAnswer(change) ? null : change;
}

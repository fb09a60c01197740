import 'server-only';
import { notFound } from 'next/navigation';
import { loadCoverage } from '@/app/_coverage/load-coverage';
import { type LoadedPatient, loadPatient } from '@/app/_record/load-patient';
import { clinicDetailsOf } from '@/db/clinic/clinic-details';
import { type KeptOrder, ordersOf, orderWithHistory } from '@/db/patients/read-orders';
import type { KeptPiece } from '@/db/patients/read-pieces';
import type { Therapist } from '@/db/therapist';
import { changeSinceCut, lastOfPlace } from '@/lib/orders/last-of-place';
import { type OrderQuestion, orderQuestions } from '@/lib/orders/order-questions';
import { sentLadders } from '@/lib/orders/order-set';
import { figuresToSend, standingCheck, unansweredQuestions } from '@/lib/orders/order-steps';
import type { ClinicDetails } from '@/lib/record/clinic-details';
import type { PersonsCheck, SentFigures } from '@/lib/record/order';
import { coverageQuestion } from '@/lib/schedule/coverage-of-patient';
import type { LimbChange } from '@/lib/trend/limb-change';

/** The reason of a revision that is a check and nothing else. */
export const CHECKED = 'checked';

/** Everything the screens of one order start from. */
export type LoadedOrder = LoadedPatient & {
  readonly order: KeptOrder;
  readonly details: ClinicDetails;
  readonly revisions: readonly KeptOrder[];
  /** The order's own pieces. */
  readonly pieces: readonly KeptPiece[];
  /** The figures as sent; before sending, as they would be sent now. */
  readonly figures: SentFigures | undefined;
  /** A second person's check that holds for these figures; and who wrote the order as it stands, which a check does not. */
  readonly check: PersonsCheck | null;
  readonly writtenBy: string;
  /** The last piece of the same place, and how each limb of the set changed between the two visits, in the order of the ladders. */
  readonly before: KeptPiece | undefined;
  readonly since: readonly (LimbChange | null)[];
  /** Questions nobody has answered; none once the order is sent. */
  readonly open: readonly OrderQuestion[];
};

/** An order of a patient of the therapist's clinic; any other id is a page that is not there. */
export async function loadOrder(therapist: Therapist, patientId: string, orderId: string): Promise<LoadedOrder> {
  const loaded = await loadPatient(therapist, patientId);
  const [found, details] = [await orderWithHistory(therapist, orderId), await clinicDetailsOf(therapist)];
  if (!found || found.current.patientId !== patientId) notFound();
  const { record, analysis, today } = loaded;
  const order = found.current;
  const visit = record.visits.find((one) => one.visitId === order.cutFromVisitId);
  const before = lastOfPlace(record.pieces, order, orderId);
  const { now } = await loadCoverage(therapist, record, await ordersOf(therapist, patientId), today);
  const payer = now && coverageQuestion(order, now, now.clocks);
  const asked = [...orderQuestions(record, order, analysis.policy, today), ...(payer ? [{ ...payer, limit: null }] : [])];
  const figures = order.sent ?? (visit && figuresToSend(order, visit));
  return {
    ...loaded,
    order,
    details,
    revisions: found.revisions,
    pieces: record.pieces.filter((one) => one.orderId === orderId),
    figures,
    check: standingCheck(order, figures),
    writtenBy: found.revisions.findLast((one) => one.reason !== CHECKED)?.author ?? order.author,
    before,
    since: (figures ? sentLadders(figures) : []).map(({ limb, side }) =>
      before ? changeSinceCut(analysis, before, { ...order, limb, side }) : null,
    ),
    open: order.state === 'proposed' ? unansweredQuestions(asked, order) : [],
  };
}

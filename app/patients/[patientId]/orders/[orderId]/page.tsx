import type { Metadata } from 'next';
import { requireTherapist } from '@/app/_auth/therapist';
import { cautionAbout } from '@/app/_cautions/caution-about';
import { heldPiece, holdOn } from '@/app/_cautions/read-hand-over';
import { loadOrder } from '@/app/_order/load-order';
import { missingByForm } from '@/app/_order/missing-by-form';
import { OrderForm } from '@/app/_order/order-form';
import { OrderHistory } from '@/app/_order/order-history';
import { ORDER_CARE } from '@/app/_order/order-read-back';
import { OrderSheet } from '@/app/_order/order-sheet';
import styles from '@/app/_order/order-sheet.module.css';
import { CancelOrder, CheckOrder, DeliverOrder, SendOrder } from '@/app/_order/order-steps';
import { leadWords, roomInWords } from '@/app/_order/start-order';
import { BackToPatient } from '@/app/_patient/back-to-patient';
import { PatientTitle } from '@/app/_patient/patient-title';
import { cutLadders, cutMeasures, ladderChoices } from '@/app/_piece/cut-ladders';
import { PrintButton } from '@/app/_shell/print-button';
import { ownPartsOf } from '@/db/clinic/own-parts';
import { peopleOf } from '@/db/people/people';
import { leadTimesByForm } from '@/db/service/lead-times';
import { cutKey } from '@/lib/forms/read-cut';
import { orderFormOf } from '@/lib/forms/read-order-form';
import { formsOffered } from '@/lib/garment-forms/own-form';
import { isAwaited, isHeldBack, pieceStage } from '@/lib/garments/piece-stage';
import { limitInWords } from '@/lib/limits/limit-in-words';
import { asStop } from '@/lib/orders/order-questions';
import { mayCheck, orderStage } from '@/lib/orders/order-steps';
import type { Order } from '@/lib/record/order';
import { addDays } from '@/lib/units/calendar-day';

export const metadata: Metadata = { title: 'Order' };

/** One order: its sheet for the maker, what is asked before it leaves, its pieces, and every state it has been in. */
export default async function OrderPage({ params }: { params: Promise<{ patientId: string; orderId: string }> }) {
  const { patientId, orderId } = await params;
  const therapist = await requireTherapist(`/patients/${patientId}/orders/${orderId}`);
  const loaded = await loadOrder(therapist, patientId, orderId);
  const { record, analysis, clinic, order, pieces, open, check, figures, writtenBy, today } = loaded;
  const names = new Map((await peopleOf(therapist)).map((one) => [one.id, one.name]));
  const mayWrite = therapist.role !== 'read-only';
  const own = { patientId, orderId, revision: order.revision, submissionId: crypto.randomUUID(), today };
  const step = { ...own, visitRevision: figures?.visitRevision ?? 0 };
  const waiting = pieces.filter(isAwaited).map((one) => one.piece);
  const toCome = waiting.length > 0 || pieces.some(isHeldBack);
  const about = cautionAbout(analysis);
  const stops = open.filter(({ stop }) => stop).map(asStop);
  const questions = open
    .filter(({ stop }) => !stop)
    .map(({ key, message, limit }) => ({
      key,
      message,
      source: limit && limitInWords(limit, analysis.policy),
      asksCautions: key.startsWith('cautions-unasked'),
    }));
  const ladders = [...cutLadders(record), ...cutMeasures(record)];
  const ownForms = formsOffered((await ownPartsOf(therapist)).forms, order.garment);
  return (
    <main id="main" className={styles.orderPage}>
      <PatientTitle
        record={record}
        today={today}
        saying={`Order ${order.order}, ${orderStage(order, pieces)}${checkWords(order, check !== null)}`}
      >
        <PrintButton words="Print the sheet" />
        <BackToPatient patientId={patientId} />
      </PatientTitle>
      <OrderSheet loaded={loaded} names={names} />
      {mayWrite && order.state === 'proposed' && (
        <div className="halves no-print">
          <SendOrder
            {...step}
            questions={questions}
            hold={{ stops, unasked: [] }}
            checked={check !== null}
            expected={addDays(today, order.leadDays)}
          />
          {check === null && <CheckOrder {...step} mayCheck={mayCheck(writtenBy, therapist.id)} stale={order.checked !== null} />}
        </div>
      )}
      {mayWrite && order.state === 'ordered' && waiting.length > 0 && (
        <div className="no-print">
          <DeliverOrder {...step} waiting={waiting} hold={holdOn(about, heldPiece(order), false)} />
        </div>
      )}
      {pieces.length > 0 && (
        <p className="no-print">
          {'Pieces of this order: '}
          {pieces.map((one, index) => (
            <span key={one.pieceId}>
              {index > 0 && ', '}
              <a href={`/patients/${patientId}/pieces/${one.pieceId}`} data-soft="">
                {`piece ${one.piece}, ${pieceStage(one, today)}`}
              </a>
            </span>
          ))}
        </p>
      )}
      {mayWrite && order.state === 'proposed' && (
        <details className="as-table no-print">
          <summary>Change the order</summary>
          <OrderForm
            ownForms={ownForms}
            missing={missingByForm(record, ladders, ownForms)}
            patientId={patientId}
            orderId={orderId}
            revision={order.revision}
            submissionId={crypto.randomUUID()}
            start={orderFormOf(
              { ...order, decided: order.allowance.decided },
              cutKey(order.cutFromVisitId, order, order.covers === 'measures'),
            )}
            ladders={ladderChoices(ladders)}
            // The sheet above has the ladder.
            beside={[]}
            leadWords={leadWords(await leadTimesByForm(therapist, today), order.garment.form)}
            roomWords={roomInWords(order.allowance.proposed, ladders.find(({ visitId }) => visitId === order.cutFromVisitId)?.unit ?? 'cm')}
          />
        </details>
      )}
      {mayWrite && order.state !== 'cancelled' && (order.state === 'proposed' || toCome) && <CancelOrder {...step} />}
      <OrderHistory revisions={loaded.revisions} names={names} timeZone={clinic.timeZone} />
      <p className="protocol-line no-print">{ORDER_CARE}</p>
    </main>
  );
}

/** Of an order that has not left: whether a second person has checked its figures as they are now. */
function checkWords({ state }: Pick<Order, 'state'>, isChecked: boolean): string {
  if (state !== 'proposed') return '';
  return isChecked ? ', checked, not sent' : ', not checked';
}

import type { Metadata } from 'next';
import { requireRole } from '@/app/_auth/therapist';
import { laddersBeside } from '@/app/_order/ladder-beside';
import { missingByForm } from '@/app/_order/missing-by-form';
import { OrderForm } from '@/app/_order/order-form';
import { roomAsTyped } from '@/app/_order/room-as-typed';
import { leadWords, roomInWords, startOfOrder } from '@/app/_order/start-order';
import { PatientTitle } from '@/app/_patient/patient-title';
import { cutLadders, cutMeasures, ladderChoices } from '@/app/_piece/cut-ladders';
import { loadPatient } from '@/app/_record/load-patient';
import { ProtocolLine } from '@/app/_shell/protocol-line';
import { RoomTable } from '@/app/_what-if/room-table';
import { ownPartsOf } from '@/db/clinic/own-parts';
import { ordersOf } from '@/db/patients/read-orders';
import { leadTimesByForm } from '@/db/service/lead-times';
import { formsOffered } from '@/lib/garment-forms/own-form';
import { leadProposal } from '@/lib/service/lead-times';

export const metadata: Metadata = { title: 'New order' };

/** A new order. After an earlier piece its figures are carried over; the ladder is the newest, the room is decided anew. */
export default async function NewOrderPage({
  params,
  searchParams,
}: {
  params: Promise<{ patientId: string }>;
  searchParams: Promise<{ after?: string; reason?: string }>;
}) {
  const { patientId } = await params;
  const { after, reason } = await searchParams;
  const therapist = await requireRole('lead', 'therapist');
  const loaded = await loadPatient(therapist, patientId);
  const { record, analysis, today } = loaded;
  const ladders = [...cutLadders(record), ...cutMeasures(record)];
  const before = record.pieces.find((one) => one.piece === after) ?? record.pieces.at(-1);
  const carried = startOfOrder(before, await ordersOf(therapist, patientId), ladders, reason);
  const ownForms = formsOffered((await ownPartsOf(therapist)).forms);
  const times = await leadTimesByForm(therapist, today);
  const lead = carried.form ? leadProposal(times.get(carried.form) ?? []) : undefined;
  const start = lead?.days === undefined ? carried : { ...carried, leadDays: String(lead.days) };
  const last = analysis.pieces.find((one) => one.piece === before);
  const proposed = roomAsTyped(start, ladders, ownForms, loaded);
  const known = proposed.kind === 'read' ? proposed : undefined;
  return (
    <main id="main">
      <PatientTitle record={record} today={today} saying="A new order: one or more like pieces from one visit’s figures" />
      {ladders.length === 0 ? (
        <p className="nothing-yet">
          Measure first: an order is made to its figures.{' '}
          <a href={`/patients/${patientId}/visits/new`} data-soft="">
            New visit
          </a>
        </p>
      ) : (
        <OrderForm
          patientId={patientId}
          orderId={null}
          revision={0}
          submissionId={crypto.randomUUID()}
          start={start}
          leadWords={leadWords(times, start.form)}
          ladders={ladderChoices(ladders)}
          beside={laddersBeside(record, ladders, known?.ladders ?? [], ownForms)}
          ownForms={ownForms}
          missing={missingByForm(record, ladders, ownForms)}
          roomWords={roomInWords(known?.room, known?.ladder.unit ?? 'cm')}
        />
      )}
      {last && <RoomTable one={last} policy={analysis.policy} letOutMm={0} />}
      <ProtocolLine />
    </main>
  );
}

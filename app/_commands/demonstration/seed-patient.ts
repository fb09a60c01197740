import { saveCourse } from '@/db/patients/course';
import { proposeOrder, reviseOrder } from '@/db/patients/orders';
import { addPatient } from '@/db/patients/patients';
import { savePiece } from '@/db/patients/pieces';
import { recordOf } from '@/db/patients/records';
import { saveVisit } from '@/db/patients/visits';
import type { Therapist } from '@/db/therapist';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { figuresToSend, piecesOfOrder, proposedOrder, sentOrder } from '@/lib/orders/order-steps';
import { previewPiece, proposedRoom } from '@/lib/orders/preview-piece';
import type { CalendarDay } from '@/lib/units/calendar-day';
import type { DemoOrder, DemoPatient } from './demo-patient';
import { writtenAt } from './written-at';

/** Writes one made-up person into a clinic as a therapist would have: the patient, each visit on its day, each piece from its ladder, the phases of the course. */
export async function seedPatient(lead: Therapist, { details, visits, pieces, orders, phases }: DemoPatient): Promise<string> {
  const entry = { submissionId: crypto.randomUUID(), details };
  const added = await addPatient(lead, entry, writtenAt(visits[0]?.day));
  if (added.kind !== 'saved') throw new Error(`${details.reference} is there twice.`);
  const { patientId } = added;
  const visitOf = new Map<CalendarDay, string>();
  for (const visit of visits) {
    const saved = await saveVisit(lead, { patientId, submissionId: crypto.randomUUID(), visit }, writtenAt(visit.day));
    if (saved.kind === 'saved') visitOf.set(visit.day, saved.visitId);
  }
  for (const one of pieces) {
    const piece = { ...one, cutFromVisitId: visitOf.get(one.cutFrom) ?? null };
    await savePiece(lead, { patientId, submissionId: crypto.randomUUID(), piece }, writtenAt(one.cutFrom));
  }
  for (const order of orders) await seedOrder(lead, patientId, order, visitOf.get(order.choice.cutFrom) ?? '');
  for (const [number, phase] of phases.entries()) {
    const entry = { submissionId: crypto.randomUUID(), phases: phases.slice(0, number + 1), deed: 'phase begun', reason: null } as const;
    const begun = await saveCourse(lead, patientId, number, entry, writtenAt(phase.from));
    if (begun.kind !== 'saved') throw new Error(`${details.reference}: the phase ${phase.kind} was not begun, ${begun.kind}.`);
  }
  return patientId;
}

async function seedOrder(lead: Therapist, patientId: string, { choice, sent }: DemoOrder, visitId: string): Promise<void> {
  const record = await recordOf(lead, patientId);
  const visit = record?.visits.find((one) => one.visitId === visitId);
  if (!record || !visit) throw new Error('An order is cut from a visit that is not there.');
  const room = proposedRoom(previewPiece(record, choice, DEFAULT_POLICY, sent?.ordered ?? choice.cutFrom).piece);
  const proposed = proposedOrder(choice, visitId, room);
  const at = writtenAt(sent?.ordered ?? choice.cutFrom);
  const saved = await proposeOrder(lead, { patientId, submissionId: crypto.randomUUID(), order: proposed }, at);
  if (!('orderId' in saved) || !sent) return;
  const order = {
    ...proposed,
    order: 1,
    checked: sent.checked ? { by: sent.checked, name: sent.checked, at: at.toISOString(), visitRevision: visit.revision } : null,
  };
  const figures = figuresToSend(order, visit);
  if (!figures) throw new Error('An order is cut from a limb that was not measured.');
  const left = sentOrder(order, { sent: figures, ordered: sent.ordered, expected: sent.expected, answers: [] });
  const labels = record.pieces.map((one) => one.piece);
  const added = piecesOfOrder(left, labels).map((piece) => ({ ...piece, cutFromVisitId: visitId, retiredReason: null }));
  await reviseOrder(
    lead,
    saved.orderId,
    1,
    { submissionId: crypto.randomUUID(), order: left, deed: 'sent', reason: 'sent', pieces: { added } },
    at,
  );
}

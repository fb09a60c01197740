import type { Device, DeviceRequest, DeviceUseStatement, Observation } from 'fhir/r4';
import { limbInWords } from '../../ladder/limb';
import { garmentForm } from '../../record/garment';
import type { Order } from '../../record/order';
import type { FiledCaution, FiledPiece } from '../../record/patient-file';
import type { PatientEvent } from '../../record/patient-record';
import { fhirText, jsonExtension } from './extensions';
import { ownConcept, ownIdentifierOf } from './own-codes';
import { SUBJECT } from './patient-resource';

const ORDER_STATUS = { proposed: 'draft', ordered: 'active', cancelled: 'revoked' } as const satisfies Record<
  Order['state'],
  DeviceRequest['status']
>;

/** An order as a DeviceRequest; the whole order, with the figures it was sent with, beside it. */
export function orderResource(order: Order): DeviceRequest {
  return {
    resourceType: 'DeviceRequest',
    id: `order-${order.order}`,
    identifier: [ownIdentifierOf('order', `order-${order.order}`)],
    extension: jsonExtension('order', order),
    status: ORDER_STATUS[order.state],
    intent: order.state === 'ordered' ? 'order' : 'proposal',
    codeCodeableConcept: ownConcept('custom-garment', garmentForm(order.garment.form)?.words),
    parameter: [
      { code: { text: 'Limb' }, valueCodeableConcept: { text: limbInWords(order.limb, order.side) } },
      { code: { text: 'Pieces' }, valueQuantity: { value: order.quantity } },
      {
        code: { text: 'Reduction of the girth' },
        valueQuantity: { value: order.reductionPct, unit: '%', system: 'http://unitsofmeasure.org', code: '%' },
      },
    ],
    subject: SUBJECT,
    authoredOn: order.ordered ?? undefined,
    reasonCode: [{ text: order.reasonCode }],
    note: order.note && fhirText(order.note) ? [{ text: fhirText(order.note) }] : undefined,
  };
}

/** A piece as a Device and, from its first wear on, how it is used; the whole piece beside it. */
export function pieceResources(piece: FiledPiece, number: number): (Device | DeviceUseStatement)[] {
  const id = `piece-${number}`;
  const device: Device = {
    resourceType: 'Device',
    id,
    identifier: [ownIdentifierOf('piece', id)],
    extension: jsonExtension('piece', piece),
    status: piece.retired ? 'inactive' : 'active',
    deviceName: [{ name: fhirText(piece.piece) || id, type: 'user-friendly-name' }],
    type: ownConcept('custom-garment', garmentForm(piece.garment?.form ?? '')?.words),
    patient: SUBJECT,
  };
  if (!piece.firstWorn) return [device];
  const use: DeviceUseStatement = {
    resourceType: 'DeviceUseStatement',
    id: `${id}-use`,
    status: piece.retired ? 'completed' : 'active',
    subject: SUBJECT,
    timingPeriod: { start: piece.firstWorn, ...(piece.retired && piece.retired >= piece.firstWorn && { end: piece.retired }) },
    device: { reference: `Device/${id}` },
    bodySite: { text: limbInWords(piece.limb, piece.side) },
  };
  return [device, use];
}

/** An event as an Observation on its day. */
export function eventResource(event: PatientEvent, number: number): Observation {
  return {
    resourceType: 'Observation',
    id: `event-${number}`,
    identifier: [ownIdentifierOf('event', `event-${number}`)],
    extension: jsonExtension('event', event),
    status: 'final',
    code: ownConcept('limb-event', event.kind),
    subject: SUBJECT,
    effectiveDateTime: event.day,
    valueString: fhirText(event.words) || event.kind,
  };
}

/** The latest answer to a caution card as an Observation on its day. */
export function cautionResource(caution: FiledCaution, number: number): Observation {
  return {
    resourceType: 'Observation',
    id: `caution-${number}`,
    identifier: [ownIdentifierOf('caution', `caution-${number}`)],
    extension: jsonExtension('caution', caution),
    status: 'final',
    code: ownConcept('caution-answer', fhirText(caution.wording) || caution.card),
    subject: SUBJECT,
    effectiveDateTime: caution.day,
    valueString: caution.answer,
    note: caution.words && fhirText(caution.words) ? [{ text: fhirText(caution.words) }] : undefined,
  };
}

import type { Device, DeviceRequest, DeviceUseStatement, EpisodeOfCare, Observation } from 'fhir/r4';
import type { Phase } from '../../course/phases';
import { formOf } from '../../garment-forms/own-form';
import type { Order } from '../../record/order';
import type { FiledCaution, FiledPiece } from '../../record/patient-file';
import type { PatientEvent } from '../../record/patient-record';
import { addDays } from '../../units/calendar-day';
import { fhirText, jsonExtension, textExtension } from './extensions';
import { ownConcept } from './own-codes';
import { CLINIC, SUBJECT } from './patient-resource';
import { category, limbSite } from './public-codes';

const ORDER_STATUS = { proposed: 'draft', ordered: 'active', cancelled: 'revoked' } as const satisfies Record<
  Order['state'],
  DeviceRequest['status']
>;

/** An order as a DeviceRequest; the whole order, with the figures it was sent with, beside it. */
export function orderResource(order: Order): DeviceRequest {
  return {
    resourceType: 'DeviceRequest',
    id: `order-${order.order}`,
    extension: jsonExtension('order', order),
    status: ORDER_STATUS[order.state],
    intent: order.state === 'ordered' ? 'order' : 'proposal',
    codeCodeableConcept: ownConcept('custom-garment', formOf(order.garment)?.words),
    parameter: [
      { code: { text: 'Limb' }, valueCodeableConcept: limbSite(order.limb, order.side) },
      { code: { text: 'Pieces' }, valueQuantity: { value: order.quantity } },
      {
        code: { text: 'Reduction of the girth' },
        valueQuantity: { value: order.reductionPct, unit: '%', system: 'http://unitsofmeasure.org', code: '%' },
      },
    ],
    subject: SUBJECT,
    requester: CLINIC,
    authoredOn: order.ordered ?? undefined,
    reasonCode: [{ text: order.reasonCode }],
    note: order.note && fhirText(order.note) ? [{ text: fhirText(order.note) }] : undefined,
  };
}

/** A piece as a Device and, from its first wear on, how it is used; the whole piece beside it. */
export function pieceResources(piece: FiledPiece, name: string, number: number): (Device | DeviceUseStatement)[] {
  const id = `piece-${name}`;
  const device: Device = {
    resourceType: 'Device',
    id,
    extension: [...textExtension('number', String(number)), ...jsonExtension('piece', piece)],
    status: piece.retired ? 'inactive' : 'active',
    deviceName: [{ name: fhirText(piece.piece) || id, type: 'user-friendly-name' }],
    type: ownConcept('custom-garment', formOf(piece.garment)?.words),
    patient: SUBJECT,
    owner: CLINIC,
  };
  if (!piece.firstWorn) return [device];
  const use: DeviceUseStatement = {
    resourceType: 'DeviceUseStatement',
    id: `${id}-use`,
    status: piece.retired ? 'completed' : 'active',
    subject: SUBJECT,
    timingPeriod: { start: piece.firstWorn, ...(piece.retired && piece.retired >= piece.firstWorn && { end: piece.retired }) },
    device: { reference: `Device/${id}` },
    bodySite: limbSite(piece.limb, piece.side),
  };
  return [device, use];
}

/** An event as an Observation on its day. */
export function eventResource(event: PatientEvent, name: string, number: number): Observation {
  return {
    resourceType: 'Observation',
    id: `event-${name}`,
    extension: [...textExtension('number', String(number)), ...jsonExtension('event', event)],
    status: 'final',
    category: category('therapy'),
    code: ownConcept('limb-event', event.kind),
    subject: SUBJECT,
    performer: [CLINIC],
    effectiveDateTime: event.day,
    valueString: fhirText(event.words) || event.kind,
  };
}

/**
 * A phase of the course as an EpisodeOfCare: its kind as the type, its days as the period; the whole phase beside it.
 *
 * One that lasts until the next begins ends the day before it. `ended` is a finished episode of the day it ended on; on hold is `onhold`, as the
 * standard calls it. `day` is the day of writing. Source: HL7 FHIR R4, EpisodeOfCare.
 */
export function phaseResource(phase: Phase, next: Phase | undefined, day: string, name: string, number: number): EpisodeOfCare {
  const { kind, from, until } = phase;
  const end = kind === 'ended' ? from : (until ?? (next && next.from > from ? addDays(next.from, -1) : next?.from));
  const running = kind === 'on-hold' ? 'onhold' : 'active';
  return {
    resourceType: 'EpisodeOfCare',
    id: `phase-${name}`,
    extension: [...textExtension('number', String(number)), ...jsonExtension('phase', phase)],
    status: end && end <= day ? 'finished' : running,
    type: [{ text: kind }],
    patient: SUBJECT,
    managingOrganization: CLINIC,
    period: { start: from, ...(end && { end }) },
  };
}

/** The latest answer to a caution card as an Observation on its day. */
export function cautionResource(caution: FiledCaution, name: string, number: number): Observation {
  return {
    resourceType: 'Observation',
    id: `caution-${name}`,
    extension: [...textExtension('number', String(number)), ...jsonExtension('caution', caution)],
    status: 'final',
    category: category('survey'),
    code: ownConcept('caution-answer', fhirText(caution.wording) || caution.card),
    subject: SUBJECT,
    performer: [CLINIC],
    effectiveDateTime: caution.day,
    valueString: caution.answer,
    note: caution.words && fhirText(caution.words) ? [{ text: fhirText(caution.words) }] : undefined,
  };
}

import type { Appointment, Condition, Consent, FhirResource, Observation, ServiceRequest } from 'fhir/r4';
import type { Observation as Looked } from '../../observations/observation';
import type { Booking } from '../../record/booking';
import type { Leaving } from '../../record/leaving';
import type { WorkFacts } from '../../record/work-facts';
import { fhirText, jsonExtension, textExtension } from './extensions';
import { ownConcept } from './own-codes';
import { CLINIC, SUBJECT } from './patient-resource';
import { category } from './public-codes';

/** What a referral, cause and consents say of a person, each as the resource the standard has for it; the facts whole beside the Condition. */
export function factResources(facts: WorkFacts): FhirResource[] {
  return [causeResource(facts), ...referralResource(facts), ...consentResources(facts)];
}

/** The cause as a Condition: when it began, its stage in words, the burnt area; every fact beside it, so that they come back. */
function causeResource(facts: WorkFacts): Condition {
  return {
    resourceType: 'Condition',
    id: 'for-the-work',
    extension: jsonExtension('for-the-work', facts),
    clinicalStatus: { coding: [{ system: 'http://terminology.hl7.org/CodeSystem/condition-clinical', code: 'active' }] },
    code: { text: fhirText(facts.cause ?? '') || 'Reason for compression or pressure garments' },
    subject: SUBJECT,
    ...(facts.injured && { onsetDateTime: facts.injured }),
    ...(facts.stage && fhirText(facts.stage) && { stage: [{ summary: { text: fhirText(facts.stage) } }] }),
    ...(facts.burntPct !== null && { note: [{ text: `Burnt area ${facts.burntPct} % of the body’s surface` }] }),
  };
}

/** A referral as a ServiceRequest; nothing where neither a day nor a prescriber is known. */
function referralResource({ referralDay, referralUntil, referralFor, prescriber }: WorkFacts): ServiceRequest[] {
  if (!referralDay && !referralUntil && !prescriber && !referralFor) return [];
  const by = prescriber && fhirText(prescriber);
  return [
    {
      resourceType: 'ServiceRequest',
      id: 'referral',
      status: 'active',
      intent: 'order',
      code: { text: fhirText(referralFor ?? '') || 'Compression or pressure garments' },
      subject: SUBJECT,
      ...(referralDay && { authoredOn: referralDay }),
      ...(by && { requester: { display: by } }),
      ...((referralDay || referralUntil) && {
        occurrencePeriod: { ...(referralDay && { start: referralDay }), ...(referralUntil && { end: referralUntil }) },
      }),
    },
  ];
}

/** Each consent as a Consent. Source: HL7 FHIR R4, Consent; scope and category by the standard’s own code systems. */
function consentResources({ consents }: WorkFacts): Consent[] {
  return consents.map(({ to, day }, place) => ({
    resourceType: 'Consent',
    id: `consent-${place + 1}`,
    status: 'active',
    scope: { coding: [{ system: 'http://terminology.hl7.org/CodeSystem/consentscope', code: 'patient-privacy' }] },
    category: [{ coding: [{ system: 'http://loinc.org', code: '59284-0' }], text: fhirText(to) || 'Consent' }],
    patient: SUBJECT,
    dateTime: day,
    organization: [CLINIC],
    policyRule: { text: fhirText(to) || 'Consent' },
  }));
}

const APPOINTMENT_STATUS = {
  booked: 'booked',
  missed: 'noshow',
  'cancelled by the clinic': 'cancelled',
  'cancelled by the person': 'cancelled',
} as const satisfies Record<Booking['state'], Appointment['status']>;

/** A booked visit as an Appointment: its day in words where no instant is known, because a clock time alone has no zone. */
export function bookingResource(booking: Booking, number: number): Appointment {
  const { day, time, what, state } = booking;
  return {
    resourceType: 'Appointment',
    id: `booking-${number}`,
    extension: [...textExtension('number', String(number)), ...jsonExtension('booking', booking)],
    status: APPOINTMENT_STATUS[state],
    description: [`Visit on ${day}${time ? ` at ${time}` : ''}`, ...(what ? [fhirText(what)] : [])].join(': '),
    participant: [{ actor: SUBJECT, status: 'accepted' }],
  };
}

/** Something looked at as an Observation on its day, an item a component. */
export function lookedResource(looked: Looked, number: number): Observation {
  const items = Object.entries(looked.figures);
  return {
    resourceType: 'Observation',
    id: `looked-${number}`,
    extension: [...textExtension('number', String(number)), ...jsonExtension('looked', looked)],
    status: 'final',
    category: category('survey'),
    code: ownConcept('looked-at', fhirText(looked.kind) || undefined),
    subject: SUBJECT,
    performer: [CLINIC],
    effectiveDateTime: looked.day,
    ...(items.length > 0 && {
      component: items.map(([item, value]) => ({ code: { text: fhirText(item) || 'item' }, valueQuantity: { value } })),
    }),
    ...(items.length === 0 && { valueString: fhirText(looked.words ?? '') || looked.kind }),
  };
}

/** What was gone through before somebody left, as an Observation on its day, a criterion a component. */
export function leavingResource(leaving: Leaving): Observation {
  const { criteria, day, note } = leaving;
  return {
    resourceType: 'Observation',
    id: 'leaving',
    extension: jsonExtension('leaving', leaving),
    status: 'final',
    category: category('survey'),
    code: ownConcept('leaving'),
    subject: SUBJECT,
    performer: [CLINIC],
    effectiveDateTime: day,
    ...(criteria.length > 0
      ? { component: criteria.map(({ words, met }) => ({ code: { text: fhirText(words) || 'criterion' }, valueBoolean: met })) }
      : { valueString: fhirText(note ?? '') || 'gone through' }),
  };
}

import type { Appointment, Communication, Condition, Consent, FhirResource, Observation, Quantity, ServiceRequest } from 'fhir/r4';
import type { Leaving } from '../../course/leaving';
import type { Booking } from '../../diary/booking';
import { OBSERVED_KINDS } from '../../observations/catalogue';
import { answerInWords, type FamilyReply, replyParts } from '../../observations/family-reply';
import type { Observation as Looked } from '../../observations/observation';
import type { WorkFacts } from '../../record/work-facts';
import { addDays, type CalendarDay } from '../../units/calendar-day';
import { instantOf } from '../../units/clock-instant';
import { fhirText, jsonExtension, listed, textExtension } from './extensions';
import { ownConcept } from './own-codes';
import { CLINIC, SUBJECT } from './patient-resource';
import { category } from './public-codes';
import { UCUM_SYSTEM } from './typed-quantity';

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

/**
 * Each consent as a Consent. R4 asks for a scope; what the clinic wrote down says none of its codes (privacy, research, treatment), so that
 * the scope has the clinic's words and no code. Source: HL7 FHIR R4, Consent.
 */
function consentResources({ consents }: WorkFacts): Consent[] {
  return consents.map(({ to, day }, place) => ({
    resourceType: 'Consent',
    id: `consent-${place + 1}`,
    status: 'active',
    scope: { text: fhirText(to) || 'Consent' },
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

/**
 * A booked visit as an Appointment, in the zone of the clinic's clock.
 *
 * With a time it starts and ends at that instant: how long it takes is not written down. Without one the day is its requested period, and one
 * that is booked is `proposed`, because R4 lets start and end be missing for proposed and cancelled alone (app-3); one that was missed spans its
 * day. The booking itself travels beside it and is what is read back. Source: HL7 FHIR R4, Appointment, app-2 and app-3.
 * Example: 2026-07-14 09:30 in Europe/London starts and ends at 2026-07-14T08:30:00.000Z.
 */
export function bookingResource(booking: Booking, number: number, timeZone: string): Appointment {
  const { day, time, what, state } = booking;
  return {
    resourceType: 'Appointment',
    id: `booking-${number}`,
    extension: [...textExtension('number', String(number)), ...jsonExtension('booking', booking)],
    status: state === 'booked' && time === null ? 'proposed' : APPOINTMENT_STATUS[state],
    description: [`Visit on ${day}${time ? ` at ${time}` : ''}`, ...(what ? [fhirText(what)] : [])].join(': '),
    ...appointedTo(booking, timeZone),
    participant: [{ actor: SUBJECT, status: 'accepted' }],
  };
}

function appointedTo({ day, time, state }: Booking, timeZone: string): Pick<Appointment, 'start' | 'end' | 'requestedPeriod'> {
  const instant = (on: CalendarDay, at: string) => new Date(instantOf(on, at, timeZone)).toISOString();
  if (time) return { start: instant(day, time), end: instant(day, time) };
  if (state === 'missed') return { start: instant(day, '00:00'), end: instant(addDays(day, 1), '00:00') };
  return { requestedPeriod: [{ start: day, end: day }] };
}

/** Units of the catalogue by their UCUM code; a score has none but an annotation. Source: UCUM 2.1, tables of units, §6 on annotations (from memory). */
const UCUM: Readonly<Record<string, string>> = { mm: 'mm', h: 'h', days: 'd', '°': 'deg', 'of 10': '{score}' };

/** A figure with the unit of its item in the catalogue; a clinic's own kind travels without its unit, which the file does not carry. */
function figureOf({ kind, version }: Looked, item: string, value: number): Quantity {
  const found = OBSERVED_KINDS.find((one) => one.id === kind && one.version === version);
  const unit = found?.items.find(({ id }) => id === item)?.unit;
  const code = unit && UCUM[unit];
  return { value, ...(unit && { unit }), ...(code && { system: UCUM_SYSTEM, code }) };
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
      component: items.map(([item, value]) => ({ code: { text: fhirText(item) || 'item' }, valueQuantity: figureOf(looked, item, value) })),
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

/**
 * What a family sent back as a Communication, at the instant it came in the zone of the clinic’s clock: its words are the payload, the answer of the
 * clinic a note. It is no Observation: nothing was measured. The reply itself travels beside it and is what is read back.
 * Source: HL7 FHIR R4, Communication.
 */
export function replyResource(reply: FamilyReply, number: number, timeZone: string): Communication {
  const { day, time, by, answer } = reply;
  return {
    resourceType: 'Communication',
    id: `reply-${number}`,
    extension: [...textExtension('number', String(number)), ...jsonExtension('family-reply', reply)],
    status: 'completed',
    subject: SUBJECT,
    recipient: [CLINIC],
    sender: { display: fhirText(by ?? '') || 'the family' },
    sent: new Date(instantOf(day, time, timeZone)).toISOString(),
    payload: listed(replyParts(reply).map((part) => ({ contentString: fhirText(part) }))),
    ...(answer && { note: [{ text: fhirText(answerInWords(answer, answer.day)) }] }),
  };
}

import { CAUTION_CARDS } from '@/lib/cautions/caution-cards';
import { ENDED_AS, PHASE_KINDS, type Phase } from '@/lib/course/phases';
import { BOOKING_STATES } from '@/lib/diary/booking';
import type { KeptReply } from '@/lib/observations/family-reply';
import type { KeptObservation } from '@/lib/observations/observation';
import { CARD_ANSWERS } from '@/lib/record/caution-answer';
import { OCCASIONS, type PatientEvent, type PatientRecord, type Visit } from '@/lib/record/patient-record';
import { NO_FACTS, type WorkFacts } from '@/lib/record/work-facts';
import { addDays, type CalendarDay } from '@/lib/units/calendar-day';
import type { Random } from '../cohort/random';
import { madeUpMeasures } from './made-up-measures';
import { madeUpPieces } from './made-up-pieces';
import { lessBy, withSlips } from './made-up-slips';

/** The same person with slips of the tape, named measures, pieces, phases and all that is written down beside the measures. */
export function withLife(given: PatientRecord, random: Random, ownPieces = false): PatientRecord {
  const sometimes = <T>(share: number, value: () => T): T | undefined => (random.uniform() < share ? value() : undefined);
  const measured = sometimes(0.5, () => random.pick(['hand', 'foot', 'trunk', 'head'] as const));
  const visits = given.visits.map((visit, index): Visit => {
    const occasion = sometimes(0.1, () => random.pick(OCCASIONS));
    const named = measured && sometimes(0.8, () => madeUpMeasures(measured, given, visit, random));
    return {
      ...withSlips(visit, random),
      visitId: visit.visitId ?? `visit ${index}`,
      ...(occasion ? { occasion } : {}),
      ...(named ? { measures: [...(visit.measures ?? []), ...named] } : {}),
    };
  });
  const record = { ...given, visits: random.uniform() < 0.25 ? withSecondOfDay(visits, random) : visits };
  const days = record.visits.map(({ day }) => day);
  const from = days[0] ?? given.born;
  const someDay = () => (days.length > 0 ? random.pick(days) : given.born);
  const phases = given.phases?.length ? given.phases : (sometimes(0.5, () => phasesOver(days, random)) ?? []);
  const events = sometimes(0.3, () => [eventOn(addDays(someDay(), -3), random)]);
  return {
    ...record,
    pieces: ownPieces ? record.pieces : madeUpPieces(record, random),
    phases,
    ...(events ? { events } : {}),
    facts: sometimes(0.5, () => factsFrom(from, random)) ?? null,
    ...(measured && random.uniform() < 0.3 ? { affectedParts: [{ part: measured, side: 'middle' as const }] } : {}),
    cautions: [...CAUTION_CARDS, GONE]
      .filter(() => random.uniform() < 0.4)
      .map((card) => ({
        card: card.id,
        cardVersion: random.uniform() < 0.9 ? String(card.version) : '0',
        answer: random.pick(CARD_ANSWERS.filter((one) => one !== 'present' || random.uniform() < 0.2)),
        day: someDay(),
        words: 'as said',
        figures: null,
        byName: 'R. Adeyemi',
      })),
    bookings: [-40, 5, 30]
      .filter(() => random.uniform() < 0.4)
      .map((ahead, index) => ({
        bookingId: `booking ${index}`,
        day: addDays(days.at(-1) ?? from, ahead),
        time: random.pick([null, '09:30', '14:00']),
        what: random.pick([null, 'measure']),
        state: random.pick(BOOKING_STATES),
      })),
    observations: observationsOf(record, random),
    replies: (sometimes(0.4, () => [1, 2]) ?? []).map((index) => replyOf(index, addDays(days.at(-1) ?? from, index), record, random)),
  };
}

/** One visit again some hours later, as after a treatment: every girth a little smaller, or left and right changed round. */
function withSecondOfDay(visits: readonly Visit[], random: Random): Visit[] {
  const at = Math.floor(random.uniform() * visits.length);
  const other = { left: 'right', right: 'left' } as const;
  const exchanged = random.uniform() < 0.4;
  const occasion = random.pick([null, ...OCCASIONS]);
  return visits.flatMap((visit, index): Visit[] => {
    if (index !== at) return [visit];
    const ladders = visit.ladders.map((ladder) => (exchanged ? { ...ladder, side: other[ladder.side] } : lessBy(ladder, 0.99)));
    return [
      { ...visit, time: '08:00' },
      { ...visit, visitId: `${visit.visitId} again`, time: '16:00', occasion, ladders },
    ];
  });
}

/** A card that is in no list any more; what was answered to it stands. */
const GONE = { id: 'card-that-is-gone', version: 1 } as const;

function phasesOver(days: readonly CalendarDay[], random: Random): Phase[] {
  const [first, last] = [days[0], days.at(-1)];
  if (!first || !last) return [];
  const kinds = PHASE_KINDS.filter((kind) => kind !== 'ended' && random.uniform() < 0.4);
  const cuts = kinds.map(() => random.pick(days)).sort();
  const phases = kinds.map((kind, index): Phase => {
    const from = index === 0 ? first : addDays(cuts[index] as CalendarDay, index);
    const until = index === kinds.length - 1 && random.uniform() < 0.3 ? last : null;
    return { kind, from, until, baselineDay: null, ...(kind === 'on-hold' && random.uniform() < 0.5 ? { askOn: addDays(from, 60) } : {}) };
  });
  if (random.uniform() < 0.15)
    phases.push({ kind: 'ended', from: addDays(last, 8), until: null, baselineDay: null, endedAs: random.pick(ENDED_AS) });
  return phases;
}

function eventOn(day: CalendarDay, random: Random): PatientEvent {
  const kind = random.pick(['operation', 'infection', 'therapy', 'other'] as const);
  return { day, kind, words: random.pick(['amputation below the knee', 'cellulitis', 'bandaging', 'moved house']) };
}

function factsFrom(from: CalendarDay, random: Random): WorkFacts {
  const injured = addDays(from, -Math.round(random.uniform() * 500));
  return {
    ...NO_FACTS,
    referralDay: addDays(from, -14),
    referralUntil: random.pick([null, addDays(from, 100), addDays(from, 400)]),
    injured,
    healed: random.pick([null, addDays(injured, 40)]),
    burntPct: random.pick([null, 12, 35, 62]),
    contacts: random.pick([[], [{ name: 'Ada', relation: 'mother', phone: '555-0177' }]]),
    interpreter: random.uniform() < 0.3,
  };
}

const noted = { version: '1', choice: null, side: null, place: null, gone: null, rater: null, words: null } as const;

function observationsOf({ visits, affected }: PatientRecord, random: Random): KeptObservation[] {
  const seen = visits.flatMap(({ day, ladders }, index): KeptObservation[] => {
    const [ladder] = ladders;
    const at = (name: string) => ({ ...noted, observationId: `${name} ${index}`, day });
    const along = random.pick([0.2, 0.45, 0.45, 0.8]);
    const later = addDays(day, Math.round(random.uniform() * 40));
    const pressed = { kind: 'garment-pressure', figures: { mmHg: 14 + Math.round(random.uniform() * 20) }, choice: 'standing' };
    const place = ladder && { limb: ladder.limb, side: ladder.side, along };
    return [
      ...(place && random.uniform() < 0.5 ? [{ ...at('pressure'), ...pressed, day: later, place }] : []),
      ...(random.uniform() < 0.3 ? [{ ...at('worn'), kind: 'hours-worn', figures: { days: 6, hours: 8 + index, planned: 16 } }] : []),
      ...(place && random.uniform() < 0.2 ? [{ ...at('mark'), kind: 'skin-mark', figures: { 'size-mm': 12 }, choice: 'red', place }] : []),
      ...(random.uniform() < 0.2 ? [{ ...at('itch'), kind: 'itch', figures: { itch: 3 + index } }] : []),
    ];
  });
  return affected.length > 0 ? seen : seen.slice(1);
}

function replyOf(index: number, day: CalendarDay, { visits }: PatientRecord, random: Random): KeptReply {
  const answer = { did: 'seen', day: addDays(day, 1), by: 'R. Adeyemi', words: null } as const;
  const ladder = visits.at(-1)?.ladders[0];
  return {
    replyId: `reply ${index}`,
    day,
    time: '19:00',
    pageOf: day,
    hours: random.pick([null, 6, 20]),
    planned: random.pick([null, 23]),
    marks: ladder && random.uniform() < 0.5 ? [{ place: { limb: ladder.limb, side: ladder.side, along: 0.5 }, sign: 'sore' }] : [],
    call: random.uniform() < 0.4,
    words: random.pick([null, 'it slides']),
    by: null,
    answer: random.uniform() < 0.3 ? answer : null,
  };
}

import type { Therapist } from '@/db/therapist';
import type { BookingState } from '@/lib/diary/booking';
import { addDays, calendarDay } from '@/lib/units/calendar-day';
import { seeded } from '@/tests/cohort/random';
import type { MadeUpClinic } from './made-up-clinic';
import { details, orderFrom, pieceFrom, visitOn } from './made-up-records';

const MONTHS = 23;
const A_MONTH = 20;
/** The month in which the makers are said to have misread a column: what the chart must find. Counted from the first, 2025-01. */
const BAD_MONTH = 21;
const BAD_REMAKES = 12;

export type Planted = {
  readonly label: string;
  readonly form: string | null;
  readonly ordered: string;
  readonly delivered: string;
  readonly fitted: string;
  readonly outcome: 'keep' | 'alter' | 'remake';
  readonly again: string | null;
};

/** Pieces with known days and outcomes: about 5 % remakes, but twelve of twenty in one month; making takes 12 to 16 days, 21 in the bad month. */
export function planted(): readonly Planted[] {
  const random = seeded(24);
  return Array.from({ length: MONTHS * A_MONTH }, (_, index) => {
    const [month, place] = [Math.floor(index / A_MONTH), index % A_MONTH];
    const isBad = month === BAD_MONTH;
    const fitted = calendarDay(
      `${2025 + Math.floor(month / 12)}-${String((month % 12) + 1).padStart(2, '0')}-${String(place + 2).padStart(2, '0')}`,
    );
    const delivered = addDays(fitted, -(1 + Math.floor(random.uniform() * 3)));
    const ordered = addDays(delivered, -(12 + Math.floor(random.uniform() * 5) + (isBad ? 9 : 0)));
    const chance = random.uniform();
    const outcome = (isBad ? place < BAD_REMAKES : chance < 0.05) ? 'remake' : chance > 0.9 ? 'alter' : 'keep';
    const again = outcome === 'keep' || place % 2 === 0 ? null : addDays(fitted, 6);
    return {
      label: String(index + 1),
      form: place % 3 === 0 ? null : place % 3 === 1 ? 'glove' : 'arm-sleeve',
      ordered,
      delivered,
      fitted,
      outcome,
      again,
    };
  });
}

type Writers = Pick<MadeUpClinic['db'], 'client' | 'schema' | 'patients' | 'visits' | 'answers' | 'noted'>;

const form = () => crypto.randomUUID();

/** A patient with these pieces, each with the revisions that its steps leave behind. */
export async function plantService(db: Writers, therapist: Therapist, of: readonly Planted[]): Promise<void> {
  const { client, schema, patients, visits, answers, noted } = db;
  const added = await patients.addPatient(therapist, { submissionId: form(), details: details('HL-0024') });
  const patientId = added.kind === 'saved' ? added.patientId : '';
  const saved = await visits.saveVisit(therapist, { patientId, submissionId: form(), visit: visitOn('2024-11-01') });
  const visitId = saved.kind === 'saved' ? saved.visitId : '';
  const database = await client.getDatabase();
  const owner = { clinicId: therapist.clinicId };
  const signed = () => ({ author: therapist.id, at: new Date(0), reason: null, submissionId: form() });
  const orders: (typeof schema.garmentOrder.$inferInsert)[] = [];
  const sent: (typeof schema.orderRevision.$inferInsert)[] = [];
  const pieces: (typeof schema.piece.$inferInsert)[] = [];
  const revisions: (typeof schema.pieceRevision.$inferInsert)[] = [];
  for (const one of of) {
    const [orderId, pieceId] = [form(), form()];
    orders.push({ ...owner, id: orderId, patientId, number: Number(one.label), state: 'ordered', revision: 1 });
    const { cutFromVisitId, ...order } = {
      ...orderFrom(visitId, '2024-11-01'),
      order: Number(one.label),
      ordered: calendarDay(one.ordered),
    };
    sent.push({ ...owner, ...signed(), id: form(), orderId, number: 1, cutFromVisitId, content: order });
    const fit = {
      day: calendarDay(one.fitted),
      zones: [],
      outcome: one.outcome,
      reason: one.outcome === 'keep' ? null : 'girth wrong',
      words: null,
      taught: false,
    } as const;
    const { piece: label, ...cut } = pieceFrom(visitId, '2024-11-01', one.label);
    const garment = one.form ? ({ form: one.form, use: 'day', pressure: null, options: [] } as const) : null;
    const ordered = { ...cut, label, orderId, garment };
    const delivered = { ...ordered, delivered: calendarDay(one.delivered) };
    const again = one.again ? calendarDay(one.again) : null;
    const states =
      one.outcome === 'keep'
        ? [ordered, delivered, { ...delivered, fit, firstFit: fit.day }, { ...delivered, fit, firstFit: fit.day, firstWorn: fit.day }]
        : [
            ordered,
            delivered,
            { ...ordered, fit, delivered: null },
            ...(again
              ? [
                  { ...ordered, fit, delivered: again },
                  { ...ordered, fit: { ...fit, day: again, outcome: 'keep', reason: null } as const, delivered: again, firstFit: again },
                ]
              : []),
          ];
    pieces.push({ ...owner, id: pieceId, patientId, label, revision: states.length });
    revisions.push(...states.map((state, index) => ({ ...state, ...owner, ...signed(), id: form(), pieceId, number: index + 1 })));
  }
  for (let from = 0; from < revisions.length; from += 200) {
    const next = <T>(rows: readonly T[]): T[] => rows.slice(from, from + 200);
    if (from < of.length) {
      await database.insert(schema.garmentOrder).values(next(orders));
      await database.insert(schema.orderRevision).values(next(sent));
      await database.insert(schema.piece).values(next(pieces));
    }
    await database.insert(schema.pieceRevision).values(next(revisions));
  }
  const asked = { ruleVersion: '1', inputs: {}, until: null, reason: null };
  const say = (rule: string, key: string, answer: 'act' | 'begun' | 'not-now' | 'not-for-this-patient', day: string) =>
    answers.answerPrompt(therapist, patientId, { ...asked, rule, promptKey: key, inputsHash: key, answer }, new Date(`${day}T12:00:00Z`));
  await say('growth', 'a', 'not-now', '2026-02-01');
  await say('growth', 'a', 'act', '2026-03-01');
  await say('growth', 'b', 'not-for-this-patient', '2026-03-01');
  await say('weight', 'c', 'begun', '2026-03-01');
  await say('weight', 'd', 'not-now', '2026-03-01');
  await say('weight', 'e', 'act', '2024-03-01');
  for (const [day, states] of Object.entries(BOOKED)) {
    const thing = form();
    for (const [expected, state] of states.entries()) {
      const content = state && { day: calendarDay(day), time: null, what: null, state };
      const entry = { kind: 'booking', thing, expected, day: calendarDay(day), content, deed: 'visit booked', reason: null } as const;
      await noted.saveNoted(therapist, patientId, { ...entry, submissionId: form() });
    }
  }
}

/** What was booked, each with its states in order (null: taken back): kept once, missed twice, the rest is not counted. */
const BOOKED: Readonly<Record<string, readonly (BookingState | null)[]>> = {
  '2024-11-01': ['booked', 'missed'],
  '2026-02-03': ['booked', 'missed'],
  '2026-03-04': ['missed'],
  '2026-04-05': ['booked', 'missed', 'cancelled by the person'],
  '2026-05-06': ['booked'],
  '2026-06-07': ['missed', null],
};

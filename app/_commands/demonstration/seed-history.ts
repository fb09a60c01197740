import { auditEntry } from '@/db/audit/audit-entry';
import type { Statement } from '@/db/audit/statement';
import { saveCourse } from '@/db/patients/course';
import { notedSteps } from '@/db/patients/noted';
import { addPatient } from '@/db/patients/patients';
import { saveVisit } from '@/db/patients/visits';
import { garmentOrder, orderRevision, pieceRevision, piece as pieceTable } from '@/db/schema/schema';
import type { Therapist } from '@/db/therapist';
import { inTransaction } from '@/db/transaction';
import { refreshPatient, refreshStale } from '@/db/worklist/refresh-work';
import type { OrderChoice } from '@/lib/forms/read-order-form';
import { figuresToSend, proposedOrder, sentOrder } from '@/lib/orders/order-steps';
import { addDays, type CalendarDay } from '@/lib/units/calendar-day';
import { type HistoryPerson, type HistoryPiece, historyPeople } from './history-people';
import { writtenAt } from './written-at';

/** Writes the people of the two years before a day into a clinic, looking at each of them on the days of their visits, so that what was said then can be held against what came; gives how many. */
export async function seedHistory(lead: Therapist, today: CalendarDay): Promise<number> {
  const people = historyPeople(today);
  for (const one of people) await seedPerson(lead, one);
  await refreshStale(lead, today);
  return people.length;
}

async function seedPerson(lead: Therapist, { person, pieces, missed }: HistoryPerson): Promise<void> {
  const { details, visits, phases } = person;
  const added = await addPatient(lead, { submissionId: crypto.randomUUID(), details }, writtenAt(visits[0]?.day));
  if (added.kind !== 'saved') throw new Error(`${details.reference} is there twice.`);
  const { patientId } = added;
  let label = 0;
  for (const [number, visit] of visits.entries()) {
    const saved = await saveVisit(lead, { patientId, submissionId: crypto.randomUUID(), visit }, writtenAt(visit.day));
    if (saved.kind !== 'saved') throw new Error(`${details.reference}: a visit was not saved, ${saved.kind}.`);
    const begun = phases.filter(({ from }) => from <= visit.day).length;
    if (begun > number && number < 2) await savePhases(lead, patientId, phases.slice(0, begun), begun - 1);
    // The first visit says nothing that could come true, and the last one is looked at with all the others.
    if (number > 0 && number < visits.length - 1) await refreshPatient(lead, patientId, visit.day);
    const made = pieces.filter((one) => one.visit === number);
    if (made[0]) await seedPieces(lead, patientId, person, saved.visitId, number, made, label);
    label += made.length;
  }
  const booked = [
    ...visits.map(({ day }) => book(lead, patientId, day, 'booked')),
    ...missed.map((day) => book(lead, patientId, day, 'missed')),
  ];
  if ((await inTransaction(booked.flat())).kind !== 'written') throw new Error('visits of a background person were not booked');
  await savePhases(lead, patientId, phases, phases.length - 1);
}

async function savePhases(lead: Therapist, patientId: string, phases: HistoryPerson['person']['phases'], number: number): Promise<void> {
  const entry = { submissionId: crypto.randomUUID(), phases, deed: 'phase begun', reason: null } as const;
  const saved = await saveCourse(lead, patientId, number, entry, writtenAt(phases.at(-1)?.from));
  if (saved.kind !== 'saved') throw new Error(`a phase of a background person was not begun: ${saved.kind}`);
}

function book(lead: Therapist, patientId: string, day: CalendarDay, state: 'booked' | 'missed'): readonly Statement[] {
  const content = { day, time: '10:00', what: 'measure', state };
  const entry = { kind: 'booking', thing: crypto.randomUUID(), expected: 0, day, content, deed: 'visit booked', reason: null } as const;
  return notedSteps(lead, patientId, { ...entry, submissionId: crypto.randomUUID() }, writtenAt(addDays(day, -14)));
}

/** One order of a visit with its pieces, each with the states that its steps left behind. */
async function seedPieces(
  lead: Therapist,
  patientId: string,
  { details, visits }: HistoryPerson['person'],
  visitId: string,
  number: number,
  made: readonly HistoryPiece[],
  taken: number,
): Promise<void> {
  const [visit, side, first] = [visits[number], details.affected[0]?.side ?? 'left', made[0]];
  if (!visit || !first) return;
  const garment = { form: number % 2 === 0 ? 'arm-sleeve' : 'glove', use: 'day', pressure: null, options: [] } as const;
  const cut = {
    ...({ limb: 'arm', side, cutFrom: visit.day, covers: { from: 'wrist-crease', to: 'axillary-fold' } } as const),
    ...({ garment, reductionPct: 15, convention: 'C(1-r)', lifeDays: 75, leadDays: 14 } as const),
  };
  const choice: OrderChoice = {
    ...cut,
    quantity: made.length,
    reasonCode: number === 0 ? 'first piece' : 'worn out',
    note: null,
    decided: null,
  };
  const order = {
    ...proposedOrder(choice, visitId, { middleMm: 0, highMm: 0, places: [] }),
    order: number + 1,
    checked: 'unchecked' as const,
  };
  const figures = figuresToSend(order, { ...visit, revision: 1 });
  if (!figures) throw new Error('An order is cut from a limb that was not measured.');
  const left = sentOrder(order, { sent: figures, ordered: first.ordered, expected: addDays(first.ordered, 14), answers: [] });
  const { cutFromVisitId, ...content } = left;
  const [orderId, owner] = [crypto.randomUUID(), { clinicId: lead.clinicId }];
  const signed = (day: CalendarDay) => ({ author: lead.id, at: writtenAt(day), reason: null, submissionId: crypto.randomUUID() });
  const head = { ...owner, id: orderId, patientId, number: order.order, state: left.state, revision: 1 };
  const revision = { ...owner, ...signed(first.ordered), id: crypto.randomUUID(), orderId, number: 1, cutFromVisitId, content };
  const sent: Statement[] = [
    (tx) => tx.insert(garmentOrder).values(head).returning(),
    (tx) => tx.insert(orderRevision).values(revision).returning(),
    auditEntry(lead, { action: 'order sent', subjectKind: 'order', subjectId: orderId, detail: { patientId } }, writtenAt(first.ordered)),
  ];
  const statements: Statement[] = made.flatMap((one, index): Statement[] => {
    const [pieceId, label] = [crypto.randomUUID(), String(taken + index + 1)];
    const states = statesOf(one).map((state, place): typeof pieceRevision.$inferInsert => ({
      ...{ ...cut, ...NOT_YET, ...state, allowance: null, retiredReason: 'retired' in state ? 'worn out' : null, cutFromVisitId: visitId },
      ...{ label, orderId, id: crypto.randomUUID(), pieceId, ...owner, number: place + 1 },
      ...signed(one.fitted),
    }));
    const whole = { ...owner, id: pieceId, patientId, label, revision: states.length };
    return [(tx) => tx.insert(pieceTable).values(whole).returning(), (tx) => tx.insert(pieceRevision).values(states).returning()];
  });
  const deed = auditEntry(lead, { action: 'piece added', subjectKind: 'patient', subjectId: patientId }, writtenAt(first.fitted));
  if ((await inTransaction([...sent, ...statements, deed])).kind !== 'written')
    throw new Error('pieces of a background person were not written');
}

const NOT_YET = { delivered: null, fit: null, firstFit: null, firstWorn: null, retired: null };

function statesOf({ delivered, fitted, outcome, reason, again, retired }: HistoryPiece) {
  const fit = { day: fitted, zones: [], outcome, reason, words: null, taught: false } as const;
  const worn = (day: CalendarDay) => ({
    ...{ fit: { ...fit, day, outcome: 'keep', reason: null } as const, firstFit: day, firstWorn: day },
    ...(retired && retired > day ? { retired, retiredAs: 'worn' as const } : {}),
  });
  const came = { delivered };
  if (!again) return [{}, came, { ...came, ...worn(fitted) }];
  return [{}, came, { fit }, { fit, delivered: again }, { delivered: again, ...worn(again) }];
}

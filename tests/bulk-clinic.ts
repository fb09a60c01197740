import { sealPatients } from '@/db/audit/seal-contents';
import { getDatabase } from '@/db/client';
import { patient, patientRevision, workCount, workLine, workState } from '@/db/schema/schema';
import { runTransaction } from '@/db/sql/run-steps';
import type { Therapist } from '@/db/therapist';
import { workAim } from '@/db/worklist/refresh-work';
import { KNOWN, PATIENT } from '@/db/worklist/work-diff';
import type { WorkKind } from '@/lib/schedule/worklist';
import { addDays, type CalendarDay, calendarDay } from '@/lib/units/calendar-day';
import { seeded } from '@/tests/cohort/random';

const CHUNK = 500;
const KINDS: readonly WorkKind[] = ['order', 'visit', 'first-fit', 'remeasure', 'delivery'];
const TITLES = {
  order: 'Order for the left leg',
  visit: 'Visit',
  call: 'Call back',
  'first-fit': 'First fit of piece 2',
  remeasure: 'Remeasure the left leg',
  delivery: 'Expect piece 3',
};
/** Lines fall from so many days ago to so many days ahead, as a clinic's do that reviews every half year at the latest. */
const BACK = 20;
const AHEAD = 200;
/** A leg every 3 cm, twenty rungs: what each line's small outline is drawn from. */
const OUTLINE = {
  side: 'left',
  heightsMm: Array.from({ length: 20 }, (_, rung) => 30 * rung),
  girthsMm: Array.from({ length: 20 }, (_, rung) => 220 + 14 * rung),
};

/**
 * Fills a clinic with made-up patients whose lines are stored as renewed for today, without visits: for lists, searches and benches.
 *
 * Each has two lines and a reference from `B-000001` on; nothing in them came from an analysis.
 */
export async function bulkClinic(therapist: Therapist, patients: number, today: CalendarDay): Promise<void> {
  const database = await getDatabase();
  const { clinicId } = therapist;
  const { basis } = await workAim(therapist, today);
  const random = seeded(11);
  const counts = new Map<string, { kind: string; due: CalendarDay; lines: number }>();
  const count = (kind: string, due: CalendarDay) => {
    const before = counts.get(`${kind} ${due}`)?.lines ?? 0;
    counts.set(`${kind} ${due}`, { kind, due, lines: before + 1 });
  };
  for (let from = 0; from < patients; from += CHUNK) {
    const people = Array.from({ length: Math.min(CHUNK, patients - from) }, (_, index) => {
      const reference = `B-${String(from + index + 1).padStart(6, '0')}`;
      return {
        patientId: crypto.randomUUID(),
        reference,
        name: `Person ${random.pick(['Alder', 'Birch', 'Cedar', 'Hazel', 'Rowan'])} ${from + index + 1}`,
      };
    });
    const lines = people.flatMap(({ patientId }, index) => {
      const days = [0, 1].map(() => addDays(today, Math.floor(random.uniform() * (BACK + AHEAD)) - BACK)).sort();
      const [soonest = today] = days;
      /** Of every seventh the later line stands in front, as a family's wish to be rung does. */
      const rings = index % 7 === 0;
      return (rings ? [...days].reverse() : days).map((due, place) => {
        const kind = rings && place === 0 ? 'call' : (random.pick(KINDS) as keyof typeof TITLES);
        count(kind, due);
        if (place === 0) count(PATIENT, soonest);
        const words = { kind, title: TITLES[kind], reason: 'Replacement due 28 Feb 2027, making takes 21 days, measuring 7 days.' };
        const of = {
          id: crypto.randomUUID(),
          clinicId,
          patientId,
          key: `${kind}:${place}`,
          due,
          soonest: place === 0 ? soonest : due,
          prompt: null,
        };
        return {
          ...of,
          ...words,
          limb: { limb: 'leg', side: 'left' } as const,
          first: place === 0,
          behind: place === 0 ? 1 : 0,
          outline: OUTLINE,
        };
      });
    });
    await database
      .insert(patient)
      .values(people.map(({ patientId, reference, name }) => ({ id: patientId, clinicId, revision: 1, ...searched(reference, name) })));
    await database.insert(patientRevision).values(
      people.map(({ patientId, reference, name }) => {
        const details = {
          reference,
          name,
          born: calendarDay('1980-03-01'),
          sex: 'F',
          diagnosisGroup: 'other',
          affected: [],
          language: 'en',
        } as const;
        const signed = { author: therapist.id, at: new Date(0), reason: null, submissionId: patientId, note: null };
        return { id: patientId, clinicId, patientId, number: 1, ...details, ...signed };
      }),
    );
    await database
      .insert(workState)
      .values(
        people.map(({ patientId }) => ({ patientId, clinicId, changes: 1, renewals: 1, renewedFor: today, basis, claimedUntil: null })),
      );
    await database.insert(workLine).values(lines);
  }
  await runTransaction(database, (tx) => sealPatients(tx, clinicId, new Date()));
  const known = { kind: KNOWN, due: '' as CalendarDay, lines: patients };
  const rows = [...counts.values(), known].map((row) => ({ id: crypto.randomUUID(), clinicId, ...row }));
  for (let from = 0; from < rows.length; from += CHUNK) await database.insert(workCount).values(rows.slice(from, from + CHUNK));
}

function searched(reference: string, name: string) {
  const referenceKey = reference.toLowerCase();
  return { referenceKey, searchText: `${referenceKey} ${name.toLowerCase()}` };
}

import type { Therapist } from '@/db/therapist';
import { addDays, calendarDay } from '@/lib/units/calendar-day';
import type { Random } from '@/tests/cohort/random';
import type { MadeUpClinic } from './made-up-clinic';
import { details, visitOn } from './made-up-records';

const ANSWERS = 600;
const FROM = calendarDay('2025-01-15');

/** How the truth of a made-up clinic lies against what its engine said: errors as assumed times `errors`, changes as often as said times `comes`, early days kept. */
export type PlantedTruth = { readonly errors: number; readonly comes: number; readonly kept: number };

type Writers = Pick<MadeUpClinic['db'], 'client' | 'schema' | 'patients' | 'visits'>;

/** A patient with six hundred given answers and what came of them by that truth, a year with three days of each month without a piece, and phases. */
export async function plantAnswers(db: Writers, therapist: Therapist, random: Random, truth: PlantedTruth): Promise<void> {
  const { client, schema, patients, visits } = db;
  const database = await client.getDatabase();
  const added = await patients.addPatient(therapist, { submissionId: crypto.randomUUID(), details: details('HL-0091') });
  const patientId = added.kind === 'saved' ? added.patientId : '';
  const saved = await visits.saveVisit(therapist, { patientId, submissionId: crypto.randomUUID(), visit: visitOn(FROM) });
  const owner = { clinicId: therapist.clinicId, patientId };
  const given = { ...owner, id: crypto.randomUUID(), visitId: saved.kind === 'saved' ? saved.visitId : '', revision: 1, givenOn: FROM };
  await database.insert(schema.givenAnswer).values({ ...given, engine: 2, basis: 'b', verdicts: [], outlooks: [] });
  const none = { probability: null, tenth: null, changed: null, miss: null, word: null, against: null };
  const rows = Array.from({ length: ANSWERS }, (_, index): typeof schema.answerOutcome.$inferInsert => {
    const of = { ...owner, id: crypto.randomUUID(), givenId: given.id, day: addDays(FROM, index), limb: 'leg', side: 'left' } as const;
    if (index % 4 === 3) {
      const earlyKept = random.uniform() < truth.kept;
      return { ...of, ...none, kind: 'outlook', piece: '1', came: earlyKept ? 'between' : 'before-early', earlyKept, daysOff: -20 };
    }
    const probability = random.uniform();
    const changed = random.uniform() < probability * truth.comes;
    const said = probability > 0.4;
    return {
      ...of,
      ...{ kind: 'verdict', against: index % 2 === 0 ? 'baseline' : 'last', word: said ? 'more-than-expected' : 'no-clear-change' },
      ...{ probability, tenth: Math.floor(probability * 10), changed, came: said === changed ? 'confirmed' : 'contradicted' },
      miss: Math.round(100 * random.normal(truth.errors)),
    };
  });
  for (let from = 0; from < rows.length; from += 200) await database.insert(schema.answerOutcome).values(rows.slice(from, from + 200));
  const limb = { ...owner, limb: 'leg', side: 'left' } as const;
  const month = (number: number) => calendarDay(`2025-${String(number).padStart(2, '0')}-01`);
  await database.insert(schema.serviceCase).values([
    ...Array.from({ length: 12 }, (_, index) => ({
      ...{ ...limb, id: crypto.randomUUID(), kind: 'without' as const, day: month(index + 1) },
      ...{ whole: 30, some: 3 },
    })),
    ...Array.from({ length: 26 }, (_, index) => ({
      ...{ ...limb, id: crypto.randomUUID(), kind: 'excess' as const, day: month(6) },
      ...(index < 24
        ? { phase: 'reduction', lost: 65, kept: null }
        : { phase: 'garments', lost: index === 24 ? 0 : -10, kept: index === 24 }),
    })),
  ]);
}

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Therapist } from '@/db/therapist';
import { serviceDictionary, serviceTable } from '@/lib/exchange/service-table';
import { serviceFigures } from '@/lib/service/service-figures';
import { servicePeriod } from '@/lib/service/service-period';
import { addDays, calendarDay } from '@/lib/units/calendar-day';
import { type Random, seeded } from '@/tests/cohort/random';
import { type ClinicOn, clinicOn, ENGINES } from './clinic-on';
import { details, visitOn } from './made-up-records';

const TODAY = calendarDay('2026-11-30');
const ANSWERS = 600;
const FROM = calendarDay('2025-01-15');

describe.each(ENGINES)('were we right, on %s', (engine) => {
  let at: ClinicOn;
  beforeAll(async () => {
    at = await clinicOn(engine);
    // One clinic whose errors are 1.5 times as assumed, whose changes come half as often as said and whose pieces are early; and one that is right.
    await plant(at.therapist, seeded(91), { errors: 1.5, comes: 0.5, kept: 0.7 });
    await plant(at.stranger, seeded(92), { errors: 1, comes: 1, kept: 0.9 });
  });
  afterAll(async () => at?.close());

  async function plant(therapist: Therapist, random: Random, truth: { errors: number; comes: number; kept: number }) {
    const { client, schema, patients, visits } = at.db;
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
  }

  const figuresOf = async (choice: 'year' | 'all', therapist: Therapist) => {
    const { serviceCounts } = await import('@/db/service/service-counts');
    const period = servicePeriod(choice, TODAY);
    return serviceFigures(await serviceCounts(therapist, period), period);
  };

  it('finds the rule that is off and by how much, and none in the clinic that is right', async () => {
    const off = (await figuresOf('all', at.therapist)).right;
    expect(off.ranges).toHaveLength(2);
    for (const { isOff, scale } of off.ranges) {
      expect(isOff).toBe(true);
      // Errors 1.5 times as assumed: 2.25 times the variance; the 95th of a hundred misses of about 200 has an SE near 8 %.
      expect(Math.sqrt(scale ?? 0)).toBeGreaterThan(1.25);
      expect(Math.sqrt(scale ?? 0)).toBeLessThan(1.8);
    }
    expect(off.tenths.filter(({ isOff }) => isOff).length).toBeGreaterThan(3);
    expect(off.earlyKept?.isOff).toBe(true);
    const right = (await figuresOf('all', at.stranger)).right;
    expect(right.ranges.map(({ isOff }) => isOff)).toEqual([false, false]);
    expect(right.tenths.filter(({ isOff }) => isOff).length).toBeLessThan(2);
    expect(right.earlyKept?.isOff).toBe(false);
    expect(off.brier?.score).toBeGreaterThan(right.brier?.score ?? 1);
  });

  it('counts just what stands in the rows, of the period asked for, and lists the same cases', async () => {
    const database = await at.db.client.getDatabase();
    const rows = (await database.select().from(at.db.schema.answerOutcome)).filter(({ clinicId }) => clinicId === at.therapist.clinicId);
    const { serviceRows } = await import('@/db/service/service-rows');
    for (const [choice, from] of [
      ['all', '0000-00-00'],
      ['year', '2026-01-01'],
    ] as const) {
      const here = rows.filter(({ day }) => day >= from && day < '2026-12-01');
      const { right } = await figuresOf(choice, at.therapist);
      const decided = here.filter(({ changed, probability }) => changed !== null && probability !== null);
      const brier =
        decided.reduce((sum, { changed, probability }) => sum + ((probability ?? 0) - Number(changed)) ** 2, 0) / decided.length;
      expect(right.brier?.n).toBe(decided.length);
      expect(right.brier?.score).toBeCloseTo(brier, 9);
      const last = here.filter(({ against }) => against === 'last');
      const held = right.ranges.find(({ of }) => of === 'last');
      expect(held).toMatchObject({ all: last.length, some: last.filter(({ miss }) => Math.abs(miss ?? 999) <= 196).length });
      const period = servicePeriod(choice, TODAY);
      const listed = await serviceRows(at.therapist, { figure: 'ranges', by: 'answer', of: 'last' }, period, 10);
      expect([listed.total, listed.rows.length]).toEqual([last.length, 10]);
      const kept = right.verdicts.find(({ against, word }) => against === 'baseline' && word === 'no-clear-change');
      const answer = { figure: 'verdicts', by: 'answer', of: 'baseline no-clear-change' } as const;
      expect((await serviceRows(at.therapist, answer, period, 1)).total).toBe((kept?.confirmed ?? 0) + (kept?.contradicted ?? 0));
      const tenth = right.tenths.find(({ tenth: of }) => of === 7);
      expect((await serviceRows(at.therapist, { figure: 'chances', by: 'answer', of: '7' }, period, 1)).total).toBe(tenth?.all);
      const early = { figure: 'outgrow', by: 'answer', of: 'before-early' } as const;
      expect((await serviceRows(at.therapist, early, period, 1)).total).toBe(right.outlooks['before-early']);
    }
  });

  it('goes out as figures, each of them in the dictionary', async () => {
    const figures = await figuresOf('all', at.therapist);
    const lines = serviceTable(figures).split('\r\n');
    const held = figures.right.ranges.find(({ of }) => of === 'baseline');
    expect(lines.some((line) => line.startsWith(`ranges_held,against,baseline,,2026-11,${held?.all},${held?.some},1,`))).toBe(true);
    expect(lines.some((line) => line.startsWith('scale_learnt,against,last,'))).toBe(true);
    expect(lines.some((line) => line.startsWith(`brier_score,,,,2026-11,${figures.right.brier?.n},,1,0.`))).toBe(true);
    const told = serviceDictionary();
    for (const line of lines.slice(1).filter(Boolean)) expect(told).toContain(`figure,${line.split(',')[0]},`);
  });
});

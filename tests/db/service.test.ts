import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { serviceFigures } from '@/lib/service/service-figures';
import { servicePeriod } from '@/lib/service/service-period';
import { addDays, calendarDay, daysBetween } from '@/lib/units/calendar-day';
import { seeded } from '@/tests/cohort/random';
import { type ClinicOn, clinicOn, ENGINES } from './clinic-on';
import { details, orderFrom, pieceFrom, visitOn } from './made-up-records';

const TODAY = calendarDay('2026-11-30');
const MONTHS = 23;
const A_MONTH = 20;
/** The month in which the makers are said to have misread a column: what the chart must find. Counted from the first, 2025-01. */
const BAD_MONTH = 21;
const BAD_REMAKES = 12;

type Planted = {
  readonly label: string;
  readonly form: string | null;
  readonly ordered: string;
  readonly delivered: string;
  readonly fitted: string;
  readonly outcome: 'keep' | 'alter' | 'remake';
  readonly again: string | null;
};

/** Pieces with known days and outcomes: about 5 % remakes, but twelve of twenty in one month; making takes 12 to 16 days, 21 in the bad month. */
function planted(): readonly Planted[] {
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

describe.each(ENGINES)('figures of the service on %s', (engine) => {
  let at: ClinicOn;
  let rows: typeof import('@/db/service/service-rows');
  let counting: typeof import('@/db/service/service-counts');
  const cases = planted();
  const form = () => crypto.randomUUID();

  beforeAll(async () => {
    at = await clinicOn(engine);
    rows = await import('@/db/service/service-rows');
    counting = await import('@/db/service/service-counts');
    await plant(at.therapist, cases);
    await plant(at.stranger, cases.slice(0, 3));
  });
  afterAll(async () => at?.close());

  /** A patient with these pieces, each with the revisions that its steps leave behind. */
  async function plant(therapist: ClinicOn['therapist'], of: readonly Planted[]) {
    const { client, schema, patients, visits, answers } = at.db;
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
  }

  const figuresOf = async (choice: 'year' | 'twelve-months' | 'all', therapist = at.therapist) => {
    const period = servicePeriod(choice, TODAY);
    return serviceFigures(await counting.serviceCounts(therapist, period), period);
  };
  const second = cases.filter(({ again }) => again !== null).length;

  it('finds the planted rates, of the whole record and of a year, by form and by reason', async () => {
    for (const [choice, from] of [
      ['all', '2025-01-01'],
      ['year', '2026-01-01'],
      ['twelve-months', '2025-12-01'],
    ] as const) {
      const here = cases.filter(({ fitted }) => fitted >= from);
      const afterwards = cases.filter(({ again }) => again !== null && again >= from).length;
      const figures = await figuresOf(choice);
      expect(figures.firstFits, choice).toMatchObject({ some: here.filter(({ outcome }) => outcome === 'keep').length, all: here.length });
      expect(figures.remakes).toMatchObject({
        some: here.filter(({ outcome }) => outcome === 'remake').length,
        all: here.length + afterwards,
      });
      expect(figures.remakesByReason).toEqual([{ of: 'girth wrong', figure: figures.remakes }]);
      const gloves = here.filter(({ form: of }) => of === 'glove');
      expect(figures.firstFitsByForm.find(({ of }) => of === 'glove')?.figure).toMatchObject({
        some: gloves.filter(({ outcome }) => outcome === 'keep').length,
        all: gloves.length,
      });
      expect(figures.firstFitsByForm.some(({ of }) => of === null)).toBe(true);
    }
  });

  it('finds the month that stands out of the limits of the first twenty, and no other', async () => {
    const { remakeChart, daysChart } = await figuresOf('year');
    if ('noAnswer' in remakeChart || 'noAnswer' in daysChart) throw new Error('no chart');
    expect(remakeChart).toMatchObject({ kind: 'shares', isFrozen: true });
    expect(remakeChart.signals).toHaveLength(1);
    expect(remakeChart.signals[0]).toMatch(/^Oct 2026 stands outside, above its upper limit: 12 of 2\d\.$/);
    expect(remakeChart.points.filter(({ isOutside }) => isOutside).map(({ label }) => label)).toEqual(['Oct 2026']);
    expect(daysChart.signals.some((words) => words.startsWith('Oct 2026 stands outside, above'))).toBe(true);
  });

  it('finds the planted days and where they went', async () => {
    const { toFitAtFirst, toFitAfterGoingBack, making, parts } = await figuresOf('all');
    const middle = (days: readonly number[]) => {
      const sorted = [...days].sort((one, other) => one - other);
      return ((sorted[Math.floor((sorted.length - 1) / 2)] as number) + (sorted[Math.ceil((sorted.length - 1) / 2)] as number)) / 2;
    };
    const apart = (from: string, to: string) => daysBetween(calendarDay(from), calendarDay(to));
    const good = cases.filter(({ outcome }) => outcome === 'keep');
    const back = cases.filter(({ again }) => again !== null);
    expect(toFitAtFirst).toMatchObject({ n: good.length, median: middle(good.map(({ ordered, fitted }) => apart(ordered, fitted))) });
    expect(toFitAfterGoingBack).toMatchObject({ n: second, median: middle(back.map(({ ordered, again }) => apart(ordered, again ?? ''))) });
    expect(making).toMatchObject({ n: cases.length, median: middle(cases.map(({ ordered, delivered }) => apart(ordered, delivered))) });
    if ('noAnswer' in parts) throw new Error(parts.noAnswer);
    const mean = (days: readonly number[]) => days.reduce((sum, one) => sum + one, 0) / days.length;
    expect(parts.measuring).toBeCloseTo(mean(good.map(({ ordered }) => apart('2024-11-01', ordered))), 9);
    expect(parts.making).toBeCloseTo(mean(good.map(({ ordered, delivered }) => apart(ordered, delivered))), 9);
    expect(parts.waiting).toBeCloseTo(mean(good.map(({ delivered, fitted }) => apart(delivered, fitted))), 9);
  });

  it('counts a prompt by its last answer in the period; begun is none', async () => {
    const { prompts, promptsByRule } = await figuresOf('year');
    expect(prompts).toMatchObject({ some: 1, all: 3 });
    expect(promptsByRule.find(({ of }) => of === 'growth')?.figure).toMatchObject({ act: 1, putOff: 0, declined: 1 });
    expect(promptsByRule.find(({ of }) => of === 'weight')?.figure).toMatchObject({ act: 0, putOff: 1, declined: 0 });
  });

  it('lists just the rows that a figure counts, and none of another clinic', async () => {
    const figures = await figuresOf('year');
    const period = servicePeriod('year', TODAY);
    const totals = { 'first-fits': figures.firstFits, fittings: figures.remakes, prompts: figures.prompts } as const;
    for (const [figure, said] of Object.entries(totals)) {
      const { total, rows: listed } = await rows.serviceRows(at.therapist, { figure: figure as keyof typeof totals }, period, 1000);
      expect([figure, total, listed.length]).toEqual([figure, 'all' in said && said.all, total]);
    }
    const remakes = await rows.serviceRows(at.therapist, { figure: 'remakes', by: 'reason', of: 'girth wrong' }, period, 5);
    expect(remakes).toMatchObject({
      total: 'some' in figures.remakes && figures.remakes.some,
      rows: Array(5).fill({ what: 'remake: girth wrong' }),
    });
    const gloves = await rows.serviceRows(at.therapist, { figure: 'making', by: 'form', of: null }, period, 1000);
    const ofNone = figures.makingByForm.find(({ of }) => of === null)?.figure;
    expect(gloves.total).toBe(ofNone && 'n' in ofNone ? ofNone.n : 0);
    expect((await rows.serviceRows(at.therapist, { figure: 'to-fit' }, period, 1000)).total).toBe('n' in figures.toFit && figures.toFit.n);
    expect((await figuresOf('all', at.stranger)).firstFits).toMatchObject({ all: 3 });
    expect((await figuresOf('year', at.stranger)).firstFits).toEqual({
      noAnswer: 'No piece was fitted for the first time in this period.',
    });
  });
});

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { laterFrom, WORK_KINDS } from '@/lib/schedule/worklist';
import { addDays, type CalendarDay, calendarDay } from '@/lib/units/calendar-day';
import { type ClinicOn, clinicOn, ENGINES } from './clinic-on';

const TODAY = calendarDay('2026-11-25');
const PATIENTS = 3000;

type Asked = { readonly text: string; readonly params: readonly unknown[] };
type Sqlite = { prepare: (text: string) => { all: () => { detail: string }[] } };
type Pool = { query: (query: { text: string } | string, params?: readonly unknown[]) => Promise<{ rows: { 'QUERY PLAN': string }[] }> };

describe.each(ENGINES)('reading the stored worklist on %s', (engine) => {
  let at: ClinicOn;

  beforeAll(async () => {
    at = await clinicOn(engine);
    const { bulkClinic } = await import('@/tests/bulk-clinic');
    await bulkClinic(at.therapist, PATIENTS, TODAY);
    if (engine === 'postgres') await (await client<Pool>()).query('analyze');
  });
  afterAll(async () => at?.close());

  async function client<T>(): Promise<T> {
    return ((await at.db.client.getDatabase()) as unknown as { $client: T }).$client;
  }

  /** What is asked of the database while this runs. */
  async function asked(reading: () => Promise<unknown>): Promise<Asked[]> {
    const found: Asked[] = [];
    if (engine === 'sqlite') {
      const handle = await client<Sqlite>();
      const prepare = handle.prepare;
      handle.prepare = (text) => {
        found.push({ text, params: [] });
        return prepare.call(handle, text);
      };
      await reading().finally(() => Reflect.deleteProperty(handle, 'prepare'));
    } else {
      const pool = await client<Pool>();
      const query = pool.query;
      pool.query = (text, params) => {
        found.push({ text: typeof text === 'string' ? text : text.text, params: params ?? [] });
        return query.call(pool, text, params);
      };
      await reading().finally(() => Reflect.deleteProperty(pool, 'query'));
    }
    return found;
  }

  /** How the engine says it would answer, one step a line. */
  async function plansOf(reading: () => Promise<unknown>): Promise<string[]> {
    const plans: string[] = [];
    for (const { text, params } of await asked(reading)) {
      if (engine === 'sqlite')
        plans.push(
          ...(await client<Sqlite>())
            .prepare(`explain query plan ${text.replaceAll('?', '1')}`)
            .all()
            .map((step) => step.detail),
        );
      else plans.push(...(await (await client<Pool>()).query(`explain ${text}`, params)).rows.map((row) => row['QUERY PLAN']));
    }
    return plans;
  }

  /** Steps that walk a whole table, or put more rows in order than are shown. */
  const wholeTable = (plans: readonly string[]) =>
    plans.filter((step) => /^SCAN (work_|patient)|Seq Scan on (work_line|work_state|patient)/.test(step));

  const later = laterFrom(TODAY);
  const pages = [
    ['overdue', { kind: 'all', before: TODAY }],
    ['this week', { kind: 'all', from: TODAY, before: later }],
    ['later', { kind: 'all', from: later }],
    ['later orders', { kind: 'order', from: later }],
    ['far down', { kind: 'all', from: later, after: { due: addDays(TODAY, 150), id: '8' } }],
  ] as const;

  it.each(pages)('a page of what is %s walks an index and sorts no more than it', async (_name, wanted) => {
    const plans = await plansOf(() => at.db.lines.workPage(at.therapist, wanted, 12));
    expect(plans.join('\n')).toMatch(/work_line_(first|kind)/);
    expect(wholeTable(plans)).toEqual([]);
    expect(plans.filter((step) => /USE TEMP B-TREE/.test(step))).toEqual([]);
    expect(await at.db.lines.workPage(at.therapist, wanted, 12)).toHaveLength(12);
  });

  it('what is stale and what stands in front is found by an index', async () => {
    const aim = await at.db.renew.workAim(at.therapist, TODAY);
    const plans = await plansOf(async () => {
      await at.db.stale.staleCount(at.therapist, aim);
      await at.db.lines.firstReferrals(at.therapist, 12);
    });
    expect(plans.join('\n')).toMatch(/work_state_due[\s\S]*work_state_basis|work_state_basis[\s\S]*work_state_due/);
    expect(wholeTable(plans)).toEqual([]);
    expect(await at.db.stale.staleCount(at.therapist, aim)).toEqual({ behind: 0, patients: PATIENTS });
  });

  it('lists patients page by page in the order of their earliest day, each once, also those whose first line is of another day', async () => {
    const seen: { soonest: CalendarDay; patientId: string; due: CalendarDay }[] = [];
    let after: { due: CalendarDay; id: string } | undefined;
    for (let page = 0; page < 400; page++) {
      const rows = await at.db.lines.workPage(at.therapist, { kind: 'all', after }, 100);
      seen.push(...rows);
      const last = rows.at(-1);
      if (!last) break;
      after = { due: at.db.lines.dayInList(last, 'all'), id: last.id };
    }
    expect(new Set(seen.map(({ patientId }) => patientId)).size).toBe(PATIENTS);
    expect(seen).toHaveLength(PATIENTS);
    expect(seen.map(({ soonest }) => soonest)).toEqual(seen.map(({ soonest }) => soonest).sort());
    expect(seen.some(({ soonest, due }) => soonest < due)).toBe(true);
  });

  it('totals are the lines counted one by one', async () => {
    const totals = await at.db.counts.workTotals(at.therapist, TODAY, later, ['all', ...WORK_KINDS]);
    const database = await at.db.client.getDatabase();
    const lines = await database.select().from(at.db.schema.workLine);
    const sum = (
      of: (line: (typeof lines)[number]) => boolean,
      dayOf: (line: (typeof lines)[number]) => CalendarDay = ({ due }) => due,
    ) => ({
      overdue: lines.filter((line) => of(line) && dayOf(line) < TODAY).length,
      'this-week': lines.filter((line) => of(line) && dayOf(line) >= TODAY && dayOf(line) < later).length,
      later: lines.filter((line) => of(line) && dayOf(line) >= later).length,
    });
    const byPatient = sum(
      (line) => line.first,
      ({ soonest }) => soonest,
    );
    expect(totals.get('all')).toEqual(byPatient);
    expect(byPatient).not.toEqual(sum((line) => line.first));
    for (const kind of ['order', 'visit', 'delivery'] as const) expect(totals.get(kind)).toEqual(sum((line) => line.kind === kind));
    const days = await at.db.counts.workDays(at.therapist, TODAY, later);
    expect(days.reduce((all, day) => all + day.lines, 0)).toBe(sum(() => true)['this-week']);
  });
});

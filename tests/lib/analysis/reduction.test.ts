import { describe, expect, it } from 'vitest';
import { analysePatient, type PatientAnalysis } from '@/lib/analysis/analyse-patient';
import { excessBands, excessOverTime } from '@/lib/analysis/excess-over-time';
import { reboundSince, reductionLevel } from '@/lib/analysis/reduction';
import { endedBefore, type Phase, restsOn, stretchOf } from '@/lib/course/phases';
import { readLaddersCsv } from '@/lib/exchange/read-ladders-csv';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { raisePrompts } from '@/lib/prompts/decide-prompts';
import { patientSchedule } from '@/lib/schedule/patient-schedule';
import { workItems } from '@/lib/schedule/worklist';
import { calendarDay } from '@/lib/units/calendar-day';
import { ARM, armRows } from '@/tests/lib/exchange/course-files';
import { file } from '@/tests/lib/exchange/files';

type Taped = readonly [day: string, left: readonly number[], right: readonly number[]];

function analysed(taped: readonly Taped[], phases: readonly Phase[], today: string): PatientAnalysis {
  const read = readLaddersCsv(file(...taped.flatMap(([day, left, right]) => armRows(day, left, right))), calendarDay(today));
  const [record] = read.kind === 'read' ? read.records : [];
  if (!record) throw new Error('no record');
  return analysePatient({ ...record, phases }, DEFAULT_POLICY, calendarDay(today));
}

const phase = (kind: Phase['kind'], from: string, more: Partial<Phase> = {}): Phase => ({
  kind,
  from: calendarDay(from),
  until: null,
  baselineDay: null,
  ...more,
});
const affected = (analysis: PatientAnalysis) => {
  const limb = analysis.limbs.find((one) => one.affected);
  if (!limb) throw new Error('no affected limb');
  return limb;
};
const rules = (analysis: PatientAnalysis) => raisePrompts(analysis).map(({ rule }) => rule);

const FIRST: Taped = ['2026-02-02', ARM.a1, ARM.u1];
const LESS: Taped = ['2026-03-02', ARM.a2, ARM.u2];
const AGAIN: Taped = ['2026-03-06', ARM.a2, ARM.u2];
const BACK: Taped = ['2026-08-03', ARM.a1, ARM.u2];
const REDUCTION = phase('reduction', '2026-02-02');

describe('a reduction', () => {
  // Printed: the limb went from 2512.0486 to 2255.4643 ml, −10.2141 % (tests/lib/volume/excess.test.ts says where).
  it('has not levelled off while the limb shrinks, has when two ladders agree, and says so', () => {
    const shrinking = analysed([FIRST, ['2026-02-05', ARM.a1, ARM.u1], LESS], [REDUCTION], '2026-03-02');
    expect(reductionLevel(shrinking, affected(shrinking))).toMatchObject({ levelled: false, since: '2026-02-05', day: '2026-03-02' });
    const level = reductionLevel(shrinking, affected(shrinking));
    expect(level && 'volumeShare' in level && level.volumeShare).toBeCloseTo(-0.102141, 6);
    expect(rules(shrinking)).not.toContain('reduction-levelled-off');
    const level2 = analysed([FIRST, LESS, AGAIN], [REDUCTION], '2026-03-06');
    expect(reductionLevel(level2, affected(level2))).toMatchObject({ levelled: true, volumeShare: 0, girthMm: 0 });
    expect(rules(level2)).toContain('reduction-levelled-off');
  });

  it('is no question of an unexplained loss, and says nothing of a level with too few visits or too close ones', () => {
    const two = analysed([FIRST, LESS], [REDUCTION], '2026-03-02');
    expect(reductionLevel(two, affected(two))).toHaveProperty('noAnswer');
    expect(rules(two)).not.toContain('unexplained-change');
    expect(rules(analysed([FIRST, LESS], [], '2026-03-02'))).toContain('unexplained-change');
    const close = analysed([FIRST, LESS, ['2026-03-04', ARM.a2, ARM.u2]], [REDUCTION], '2026-03-04');
    expect(reductionLevel(close, affected(close))).toHaveProperty('noAnswer');
  });

  // Printed totals: excess 578.8465 and 289.1941 ml; then 2512.0486 − 1966.2702 = 545.7784 ml.
  it('that ended is what a rebound is measured from: 256.6 of 289.7 ml is back', () => {
    const phases = [phase('reduction', '2026-02-02', { until: calendarDay('2026-03-06') }), phase('garments', '2026-03-06')];
    const analysis = analysed([FIRST, LESS, AGAIN, BACK], phases, '2026-08-03');
    const rebound = reboundSince(analysis, affected(analysis));
    expect(rebound).toMatchObject({ began: '2026-02-02', ended: '2026-03-06', day: '2026-08-03', of: 'excess', reached: true });
    expect(rebound?.lost).toBeCloseTo(289.6524, 3);
    expect(rebound?.back).toBeCloseTo(256.5843, 3);
    expect(rules(analysis)).toContain('rebound-after-reduction');
    const kept = analysed([FIRST, LESS, AGAIN, ['2026-08-03', ARM.a2, ARM.u2]], phases, '2026-08-03');
    expect(reboundSince(kept, affected(kept))).toMatchObject({ reached: false });
  });
});

describe('the excess over time', () => {
  // Printed: 578.8465 ml, 29.9424 % and 289.1941 ml, 14.7077 % (tests/lib/volume/excess.test.ts says where).
  it('has a point a visit where the other limb was taped, and none for a limb that is not affected', () => {
    const analysis = analysed([FIRST, LESS], [], '2026-03-02');
    const over = excessOverTime(analysis, affected(analysis));
    expect(over?.points.map(({ day, ml, share }) => [day, ml.toFixed(4), (100 * share).toFixed(4)])).toEqual([
      ['2026-02-02', '578.8465', '29.9424'],
      ['2026-03-02', '289.1941', '14.7077'],
    ]);
    const other = analysis.limbs.find((one) => !one.affected);
    expect(other && excessOverTime(analysis, other)).toBeUndefined();
    expect(excessBands(DEFAULT_POLICY)).toEqual([
      { name: 'minimal', fromPct: 5, toPct: 20 },
      { name: 'moderate', fromPct: 20, toPct: 40 },
      { name: 'severe', fromPct: 40, toPct: null },
    ]);
  });
});

describe('at rest', () => {
  const work = (phases: readonly Phase[], today: string) => {
    const analysis = analysed([FIRST, LESS], phases, today);
    const dates = patientSchedule(analysis);
    const open = raisePrompts(analysis).map((one) => ({ ...one, also: [] }));
    return { prompts: open.map(({ rule }) => rule), dates: dates.map(({ key, computed }) => [key, computed]), analysis, open };
  };

  it('on hold nothing is due but the day to ask: the one set, else 91 days on', () => {
    const set = work([REDUCTION, phase('on-hold', '2026-04-01', { askOn: calendarDay('2026-05-01') })], '2026-04-30');
    expect([set.prompts, set.dates]).toEqual([[], [['ask-again:2026-04-01', '2026-05-01']]]);
    expect(work([REDUCTION, phase('on-hold', '2026-04-01')], '2026-04-30').dates).toEqual([['ask-again:2026-04-01', '2026-07-01']]);
    const came = work([REDUCTION, phase('on-hold', '2026-04-01', { askOn: calendarDay('2026-05-01') })], '2026-05-01');
    expect(came.prompts).toEqual(['ask-again']);
  });

  it('after an end without a day, and after a death, nothing is', () => {
    for (const endedAs of ['discharged', 'died'] as const) {
      const ended = work([REDUCTION, phase('ended', '2026-04-01', { endedAs })], '2026-11-25');
      expect([ended.prompts, ended.dates]).toEqual([[], []]);
      const { analysis, open } = ended;
      expect(workItems({ analysis, raised: open, open, dates: [] })).toEqual([]);
    }
  });

  it('a visit on the day of the end is one of the phase before, the day after is refused; orders rest', () => {
    const phases = [REDUCTION, phase('ended', '2026-04-01', { endedAs: 'died' })];
    expect(stretchOf(phases, calendarDay('2026-04-01')).phase).toBe(REDUCTION);
    expect(endedBefore(phases, calendarDay('2026-04-01'))).toBeUndefined();
    expect(endedBefore(phases, calendarDay('2026-04-02'))).toContain('Died on 1 Apr 2026');
    expect(restsOn(phases, calendarDay('2026-01-01'))).toContain('Died');
    expect(restsOn([REDUCTION], calendarDay('2026-04-02'))).toBeUndefined();
  });
});

import { describe, expect, it } from 'vitest';
import { analysePatient } from '@/lib/analysis/analyse-patient';
import { analysisDocument } from '@/lib/exchange/analysis-document';
import { csvRows } from '@/lib/exchange/csv-table';
import { readLaddersCsv } from '@/lib/exchange/read-ladders-csv';
import { PHASE_COLUMNS, withPhases } from '@/lib/exchange/read-phases-csv';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { excessAt as excessAtVisit, goneSentence } from '@/lib/summary/excess-sentence';
import { calendarDay } from '@/lib/units/calendar-day';
import { seeded } from '../../cohort/random';
import { ARM, armRows, phasesFile } from './course-files';
import { file } from './files';

const TODAY = calendarDay('2026-11-25');

/** The document's limbs of a ladders file and the rows of a phases file. */
function limbsOf(rows: readonly string[], ...phases: readonly string[]) {
  const ladders = readLaddersCsv(file(...rows), TODAY);
  if (ladders.kind === 'fault') throw new Error(ladders.fault.reason);
  const records = ladders.records.map((record) => {
    const read = withPhases(record, csvRows(phasesFile(...phases), PHASE_COLUMNS));
    if (read.kind === 'fault') throw new Error(read.fault.reason);
    return read.record;
  });
  const [patient] = analysisDocument(records, DEFAULT_POLICY, TODAY, { variance: 1, n: 0 }).patients;
  return patient?.limbs ?? [];
}

const DAYS = ['2026-01-05', '2026-02-05', '2026-03-05', '2026-04-05'] as const;
const times = (girths: readonly number[], factor: number) => girths.map((girth) => girth * factor);

/** The printed arm; then swollen again a little at two visits of a second phase. */
const COURSE = [
  ...armRows(DAYS[0], ARM.a1, ARM.u1, { weight: '70 kg' }),
  ...armRows(DAYS[1], ARM.a2, ARM.u2, { weight: '72.1 kg' }),
  ...armRows(DAYS[2], times(ARM.a2, 1.01), ARM.u2),
  ...armRows(DAYS[3], times(ARM.a2, 1.06), ARM.u2),
];

/** A loosely typed view of what only affected limbs have. */
type Excess = {
  ml: number;
  sdMl: number;
  sdPct: number;
  pct: number;
  spanMm: number[];
  segments: { spanMm: number[]; ml: number; pct: number }[];
  reductionPct: { sameDay: number; fixed: number } | null;
  reductionSince: string | null;
};
const excessAt = (limb: ReturnType<typeof limbsOf>[number] | undefined, visit: number) =>
  (limb?.visits[visit] as unknown as { excess: Excess | null } | undefined)?.excess;

describe('excess in the document', () => {
  // Printed digits of the worked example (its source: tests/lib/volume/excess.test.ts).
  it('has the printed figures of the printed arm, reduction by both formulas', () => {
    const [arm] = limbsOf(COURSE.slice(0, 44));
    const [first, later] = [excessAt(arm, 0), excessAt(arm, 1)];
    expect([first?.ml, later?.ml]).toEqual([578.847, 289.194]);
    expect(first?.pct).toBeCloseTo(29.9424, 3);
    expect(later?.pct).toBeCloseTo(14.7077, 3);
    expect(first?.segments.map(({ ml }) => ml.toFixed(2))).toEqual(
      '22.71 42.41 63.32 73.77 77.35 74.06 67.11 60.74 53.16 44.22'.split(' '),
    );
    expect(first?.segments[1]?.spanMm).toEqual([40, 80]);
    expect(later?.reductionPct?.sameDay).toBeCloseTo(50.0396, 3);
    expect(later?.reductionPct?.fixed).toBeCloseTo((100 * (2512.0486 - 2255.4643)) / 578.8465, 3);
    expect(arm?.relativeVolumeChangePct).toBeCloseTo(-11.7241, 3);
  });

  it('says why there is no reduction at the first visit, and none from a first excess that is small or none', () => {
    const [arm] = limbsOf(COURSE.slice(0, 44));
    expect([excessAt(arm, 0)?.reductionPct, arm?.visits[0]?.reasons.reductionPct]).toEqual([null, expect.stringContaining('first excess')]);
    const from = (factor: number) =>
      limbsOf([...armRows(DAYS[0], times(ARM.u1, factor), ARM.u1), ...armRows(DAYS[1], ARM.a2, ARM.u2)])[0]?.visits[1]?.reasons
        .reductionPct;
    expect(from(0.98)).toContain('not larger');
    expect(from(1)).toContain('not larger');
    expect(from(1.02)).toContain('below 5 %');
  });

  it('is said on result, patient page and report with the figures of the document', () => {
    const ladders = readLaddersCsv(file(...COURSE.slice(0, 44)), TODAY);
    const [record] = ladders.kind === 'read' ? ladders.records : [];
    if (!record) throw new Error('no record');
    const analysis = analysePatient(record, DEFAULT_POLICY, TODAY);
    const [arm] = analysis.limbs;
    const said = arm?.series.visits.map((at) => excessAtVisit(analysis, arm, at)?.replaceAll('\u202f', ' '));
    // 1.96 · sdMl and 1.96 · sdPct of the document are what “give or take” says.
    const [own] = limbsOf(COURSE.slice(0, 44));
    const document = [0, 1].map((visit) => excessAt(own, visit));
    const error = (visit: number) => [Math.round(1.96 * (document[visit]?.sdMl ?? 0)), (1.96 * (document[visit]?.sdPct ?? 0)).toFixed(1)];
    const start = (visit: number, ml: number, percent: string) =>
      `The left arm is ${ml} ml larger than the right, give or take ${error(visit)[0]} ml: +${percent} % (± ${error(visit)[1]} %), `;
    expect(said?.[0]?.startsWith(start(0, 579, '29.9'))).toBe(true);
    // The two volumes beside the difference are those it is the difference of: 2512.0 − 1933.2 = 578.8.
    expect(said?.[0]).toMatch(/, 2,512 ml against 1,933 ml over \S+ cm above the wrist crease of both, /);
    expect(said?.[0]).not.toContain('gone');
    expect(said?.[1]?.startsWith(start(1, 289, '14.7'))).toBe(true);
    // 50.0396 % as printed; (2512.0486 − 2255.4643) / 578.8465 = 44.33 %.
    const [first, now] = document.map((one) => ({ ml: one?.ml ?? 0, sdMl: one?.sdMl ?? 0 }));
    // The error by brute force: both excesses drawn 20,000 times from their own errors, the spread of 1 − E₂/E₁ taken.
    const random = seeded(2101);
    const drawn = Array.from({ length: 20_000 }, () => 1 - drawnFrom(now) / drawnFrom(first));
    function drawnFrom(one = { ml: 0, sdMl: 0 }): number {
      return one.ml + random.normal(one.sdMl);
    }
    const mean = drawn.reduce((sum, one) => sum + one, 0) / drawn.length;
    const sd = Math.sqrt(drawn.reduce((sum, one) => sum + (one - mean) ** 2, 0) / drawn.length);
    const [, gone, error2] =
      /The first difference, 5 Jan 2026: ([\d.]+) % gone, give or take ([\d.]+) % \(right arm of the same day\), 44.3 % gone \(right arm as it was then\)\.$/.exec(
        said?.[1] ?? '',
      ) ?? [];
    expect(gone).toBe('50.0');
    expect(Number(error2) / (196 * sd)).toBeGreaterThan(0.95);
    expect(Number(error2) / (196 * sd)).toBeLessThan(1.05);
    expect(
      goneSentence({ sameDay: -0.964, sameDayError: 0.2, fixed: 0.02, since: calendarDay('2026-01-05') }, { limb: 'leg', side: 'right' }),
    ).toContain('grown by 96.4\u202f%, give or take 20.0\u202f% (left leg of the same day), 2.0\u202f% gone (left leg as it was then)');
    const small = { sameDay: -2.72, sameDayError: 3.063, fixed: -2.5, since: calendarDay('2026-01-05') };
    expect(goneSentence(small, { limb: 'arm', side: 'left' }, true)).toBe(
      'The first difference of the phase, 5 Jan 2026, is too small beside its error to say how much of it is gone.',
    );
  });

  it('is not there without the other limb of that day, nor where both are affected; weight then takes its place', () => {
    const [alone] = limbsOf(armRows(DAYS[0], ARM.a1, null));
    expect([excessAt(alone, 0), alone?.visits[0]?.reasons.excess]).toEqual([null, 'The other limb was not measured that day.']);
    const [, other] = limbsOf(COURSE.slice(0, 44));
    expect(other?.visits[0]).not.toHaveProperty('excess');
    const rows = [
      ...armRows(DAYS[0], ARM.a1, ARM.u1, { weight: '70 kg', both: true }),
      ...armRows(DAYS[1], ARM.a2, ARM.u2, { weight: '72.1 kg', both: true }),
    ];
    const [left] = limbsOf(rows);
    expect([excessAt(left, 1), left?.visits[1]?.reasons.excess]).toEqual([null, expect.stringContaining('Both limbs are affected')]);
    expect(left?.visits[1]).toHaveProperty('weightAdjustedChangePct', expect.closeTo(-12.8293, 3));
  });

  it('is counted over the stretch both ladders cover, and its reduction over what all four do', () => {
    // By hand: the other arm from 8 cm up, the later affected arm up to 32 cm. Frusta of 4 cm, h (a² + ab + b²) / 12π.
    const ml = (girths: readonly number[]) =>
      girths
        .slice(1)
        .reduce((sum, c, at) => sum + (4 * ((girths[at] as number) ** 2 + (girths[at] as number) * c + c ** 2)) / (12 * Math.PI), 0);
    const own = armRows(DAYS[0], ARM.a1, null);
    const other = armRows(DAYS[0], [1], ARM.u1.slice(2), { from: 8 }).slice(1);
    const [arm] = limbsOf([...own, ...other, ...armRows(DAYS[1], ARM.a2.slice(0, 9), ARM.u2)]);
    expect(excessAt(arm, 0)?.spanMm).toEqual([80, 400]);
    expect(excessAt(arm, 0)?.ml).toBeCloseTo(ml(ARM.a1.slice(2)) - ml(ARM.u1.slice(2)), 3);
    const four = Object.fromEntries(
      Object.entries(ARM).map(([name, girths]) => [name, ml(girths.slice(2, 9))]),
    ) as typeof ARM extends object ? { [name in keyof typeof ARM]: number } : never;
    expect(excessAt(arm, 1)?.reductionPct?.sameDay).toBeCloseTo(100 * (1 - (four.a2 - four.u2) / (four.a1 - four.u1)), 3);
    expect(excessAt(arm, 1)?.reductionPct?.fixed).toBeCloseTo((100 * (four.a1 - four.a2)) / (four.a1 - four.u1), 3);
  });

  it('pairs ladders of one day that stand at two hours', () => {
    const timed = (rows: readonly string[], time: string) => rows.map((one) => one.replace(`${DAYS[0]},,`, `${DAYS[0]},${time},`));
    const rows = [...timed(armRows(DAYS[0], ARM.a1, null), '09:00'), ...timed(armRows(DAYS[0], [1], ARM.u1).slice(1), '09:30')];
    const [arm] = limbsOf(rows);
    expect(excessAt(arm, 0)?.ml).toBe(578.847);
  });
});

describe('phases in the document', () => {
  const PHASES = [`R-1,reduction,2026-01-01,${DAYS[1]},`, `R-1,garments,${DAYS[1]},,`];

  it('judge against the baseline of the phase, with the first visit of all beside it', () => {
    const [arm] = limbsOf(COURSE, ...PHASES);
    expect(arm?.visits.map(({ phase }) => phase)).toEqual(['reduction', 'garments', 'garments', 'garments']);
    expect(arm?.visits.map(({ baselineDay }) => baselineDay)).toEqual([DAYS[0], DAYS[1], DAYS[1], DAYS[1]]);
    expect(arm?.visits[1]?.vsBaseline).toBeNull();
    expect(arm?.visits[1]?.vsFirst?.verdict).toBe('less-than-expected');
    // Girths 1.06 times those of the baseline: volume 1.06² − 1 = 12.36 %.
    expect(arm?.visits[3]?.vsBaseline?.volumeChangePct).toBeCloseTo(12.36, 2);
    expect(arm?.visits[3]?.vsBaseline?.verdict).toBe('more-than-expected');
    // Against the first of all the same arm is 2255.4643 · 1.1236 / 2512.0486 − 1 = 0.883 %: no rebound to be seen.
    expect(arm?.visits[3]?.vsFirst?.volumeChangePct).toBeCloseTo(0.883, 2);
  });

  it('count the reduction from the first visit of the phase', () => {
    const [arm] = limbsOf(COURSE, ...PHASES);
    expect(excessAt(arm, 1)?.reductionPct).toBeNull();
    // A 2255.4643 → · 1.1236 with U 1966.2702 the same: 1 − (2534.2397 − 1966.2702) / 289.1941 = −96.4 %, and both formulas agree.
    expect(excessAt(arm, 3)?.reductionPct?.sameDay).toBeCloseTo(-96.398, 1);
    expect(excessAt(arm, 3)?.reductionPct?.fixed).toBeCloseTo(-96.398, 1);
    expect(excessAt(arm, 3)?.reductionSince).toBe(DAYS[1]);
  });

  it('take the baseline that was chosen, and say of a visit before it that it is before it', () => {
    const [arm] = limbsOf(COURSE, PHASES[0] ?? '', `R-1,garments,${DAYS[1]},,${DAYS[2]}`);
    expect([arm?.visits[1]?.vsBaseline, arm?.visits[1]?.reasons.vsBaseline]).toEqual([
      null,
      expect.stringContaining('before the baseline'),
    ]);
    expect(arm?.visits[2]?.vsBaseline).toBeNull();
    // 1.06² / 1.01² − 1 = 10.146 %; girths are written to 0.01 mm.
    expect(arm?.visits[3]?.vsBaseline?.volumeChangePct).toBeCloseTo(10.146, 1);
  });

  it('that do not hold a visit leave it a stretch of its own; one open phase over all is the same as none', () => {
    const [gap] = limbsOf(COURSE, `R-1,reduction,2026-01-01,2026-01-31,`, `R-1,garments,2026-04-01,,`);
    expect(gap?.visits.map(({ phase, baselineDay }) => [phase, baselineDay])).toEqual([
      ['reduction', DAYS[0]],
      [null, DAYS[1]],
      [null, DAYS[1]],
      ['garments', DAYS[3]],
    ]);
    const without = limbsOf(COURSE);
    const one = limbsOf(COURSE, 'R-1,garments,2026-01-01,,').map((limb) => ({
      ...limb,
      visits: limb.visits.map((visit) => ({ ...visit, phase: null })),
    }));
    expect(one).toEqual(without);
    expect(without[0]?.visits[3]?.vsFirst).toEqual(without[0]?.visits[3]?.vsBaseline);
  });
});

import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { file, pieces, row } from '@/tests/lib/exchange/files';
import { LEG_CM } from '@/tests/lib/prompts/made-up-piece';

/** A leg of three visits, climbing from the crease in centimetres, then in inches down from the fold, then from the knee. */
const UP = LEG_CM.map((girth, rung) =>
  row({
    day: '2026-01-05',
    time: '10:00',
    measurer: 'RA',
    weight: '70 kg',
    distance: String(4 * (rung + 1)),
    girth: String(girth),
    landmark: rung === 6 ? 'knee' : rung === 14 ? 'gluteal-fold' : '',
  }),
);
const inches = (cm: number) => (Math.round((cm / 2.54) * 1e4) / 1e4).toString();
const DOWN = [...LEG_CM].reverse().map((girth, rung) =>
  row({
    day: '2026-02-02',
    time: '10:30',
    measurer: 'RA',
    weight: '70 kg',
    zero: 'gluteal-fold',
    unit: 'in',
    distance: inches(4 * rung),
    girth: inches(girth),
    landmark: rung === 8 ? 'knee' : '',
  }),
);
const CREASE = row({ day: '2026-02-02', time: '10:30', zero: 'gluteal-fold', unit: 'in', distance: inches(60), landmark: 'ankle-crease' });
const FROM_KNEE = LEG_CM.slice(6).map((girth, step) =>
  row({
    day: '2026-03-02',
    time: '10:30',
    measurer: 'RA',
    weight: '70 kg',
    zero: 'knee',
    distance: String(4 * step),
    girth: String(girth),
    landmark: step === 8 ? 'gluteal-fold' : '',
  }),
);
const LADDERS = file(...UP, ...DOWN, CREASE, ...FROM_KNEE);

const PATIENT_KEYS = ['patient', 'limbs', 'pieces', 'prompts'];
const LIMB_KEYS = ['limb', 'side', 'visits', 'trend', 'relativeVolumeChangePct'];
const VISIT_KEYS = ['day', 'volumeMl', 'volumeSdMl', 'spanMm', 'lengthMm', 'meanGirthMm', 'doubts', 'zeroShift', 'vsBaseline'];
const CHANGE_KEYS = [
  'sharedSpanMm',
  'volumeChangePct',
  'smallestRealChangePct',
  'lengthChangePct',
  'girthChangePct',
  'expectedGirthChangePct',
  'unexplainedGirthChangePct',
  'unexplainedSdPct',
  'verdict',
  'probability',
  'since',
  'part',
  'because',
];
const PIECE_KEYS = ['piece', 'tightnessMax', 'tightnessMin', 'outgrowDay', 'outgrowEarlyDay', 'endOfLifeDay', 'orderByDay', 'allowanceMm'];
const PROMPT_KEYS = ['kind', 'action', 'due', 'title', 'facts', 'rule', 'ruleVersion'];

describe('npm run analyse', () => {
  let folder: string;
  beforeAll(() => {
    folder = fs.mkdtempSync(path.join(os.tmpdir(), 'rungwise-analyse-'));
  });
  afterAll(() => fs.rmSync(folder, { recursive: true, force: true }));

  function put(name: string, text: string | Uint8Array): string {
    const where = path.join(folder, name);
    fs.writeFileSync(where, text);
    return where;
  }

  function analyse(...given: string[]) {
    return spawnSync(process.execPath, ['--import', 'tsx', 'app/_commands/ladders/analyse.ts', ...given], {
      encoding: 'utf8',
      env: { ...process.env, TZ: 'UTC' },
    });
  }

  /** What a refusal must be: code 2, nothing on standard output, one line of reason. */
  function refusedWith(given: string[], words: string) {
    const run = analyse(...given);
    expect([run.status, run.stdout]).toEqual([2, '']);
    expect(run.stderr).toContain(words);
    expect(run.stderr).not.toMatch(/\n\s+at /);
  }

  it('prints the same bytes with several workers, and refuses the same faults', () => {
    const patients = Array.from({ length: 40 }, (_, index) =>
      [...UP, ...DOWN, CREASE, ...FROM_KNEE].map((line) => line.replace(/^[^,]*/, `R-${index % 37}`)),
    );
    const many = put(
      'many.csv',
      file(...patients.flatMap((rows) => rows.slice(0, 20)).filter((line, at, all) => all.indexOf(line) === at)),
    );
    const alone = analyse(many, '--today', '2026-03-20');
    const shared = analyse(many, '--today', '2026-03-20', '--workers', '3');
    expect([shared.status, shared.stderr]).toEqual([0, '']);
    expect(shared.stdout).toBe(alone.stdout);
    expect((JSON.parse(shared.stdout) as { patients: unknown[] }).patients).toHaveLength(37);
    const bad = put('bad-row.csv', file(...UP.slice(0, 2), row({ girth: 'abc' })));
    const [one, several] = [analyse(bad), analyse(bad, '--workers', '2')];
    expect([several.status, several.stdout, several.stderr]).toEqual([2, '', one.stderr]);
    refusedWith([many, '--workers', 'all'], '--workers: write a whole number');
  });

  it('prints every key of its contract, the same figures for a leg taped up in cm, down in inches and from the knee', () => {
    const run = analyse(put('ladders.csv', LADDERS), '--garments', put('pieces.csv', pieces({})), '--today', '2026-03-20');
    expect([run.status, run.stderr]).toEqual([0, '']);
    const document = JSON.parse(run.stdout);
    expect(Object.keys(document)).toEqual(expect.arrayContaining(['engine', 'today', 'patients']));
    expect(document.today).toBe('2026-03-20');
    // One limb with three visits, all alike: the least factor that is believed, ¼, counts by a thirtieth.
    expect(document.scale).toEqual({ variance: expect.closeTo(0.25 ** (1 / 30), 4), n: 1 });
    const [patient] = document.patients;
    expect(Object.keys(patient)).toEqual(expect.arrayContaining(PATIENT_KEYS));
    const [limb] = patient.limbs;
    expect(Object.keys(limb)).toEqual(expect.arrayContaining(LIMB_KEYS));
    expect([limb.trend, limb.relativeVolumeChangePct]).toEqual([null, null]);
    const [first, second, third] = limb.visits;
    for (const visit of limb.visits) expect(Object.keys(visit)).toEqual(expect.arrayContaining(VISIT_KEYS));
    expect([first.zeroShift, first.vsBaseline, first.doubts]).toEqual([null, null, []]);
    // Frustum sum of the girths by hand of the formula: Σ 40 (C₁² + C₁C₂ + C₂²) / 12π, in ml.
    const sum = LEG_CM.slice(1).reduce(
      (total, girth, rung) =>
        total + (4 * (girth ** 2 + girth * (LEG_CM[rung] as number) + (LEG_CM[rung] as number) ** 2)) / (12 * Math.PI),
      0,
    );
    expect(first.volumeMl).toBeCloseTo(sum, 2);
    expect(second.volumeMl).toBeCloseTo(sum, 0);
    expect(first.spanMm).toEqual([40, 600]);
    expect(second.spanMm[1]).toBeCloseTo(600, 1);
    for (const visit of [second, third]) {
      expect(Object.keys(visit.vsBaseline)).toEqual(expect.arrayContaining(CHANGE_KEYS));
      expect(Math.abs(visit.vsBaseline.volumeChangePct)).toBeLessThan(0.1);
      expect(visit.vsBaseline.verdict).toBe('no-clear-change');
      expect([visit.vsBaseline.since, visit.vsBaseline.part]).toEqual([null, null]);
      expect(visit.vsBaseline.probability).toBeGreaterThan(0);
      expect(visit.vsBaseline.probability).toBeLessThan(0.2);
      expect(visit.vsBaseline.because.every((text: unknown) => typeof text === 'string')).toBe(true);
      expect(Object.keys(visit.zeroShift)).toEqual(['mm', 'seMm', 'finding']);
    }
    const [piece] = patient.pieces;
    expect(Object.keys(piece)).toEqual(expect.arrayContaining(PIECE_KEYS));
    expect([piece.endOfLifeDay, piece.orderByDay]).toEqual(['2026-04-20', '2026-03-30']);
    expect(Object.keys(piece.allowanceMm)).toEqual(['middle', 'high']);
    for (const prompt of patient.prompts) expect(Object.keys(prompt)).toEqual(expect.arrayContaining(PROMPT_KEYS));
    expect(patient.prompts.map((prompt: { kind: string }) => prompt.kind)).toContain('end-of-life');
  });

  it('prints named measures of hand, foot, trunk and head, and refuses one on the wrong side', () => {
    const measured = (cells: Parameters<typeof row>[0]) => row({ zero: '', affected: '', height: '165 cm', weight: '70 kg', ...cells });
    const hand = measured({ limb: 'hand', side: 'left', landmark: 'hand-girth', girth: '18.7' });
    const foot = measured({ limb: 'foot', side: 'right', landmark: 'foot-length', girth: '34.6' });
    const run = analyse(put('measures.csv', file(hand, foot)), '--today', '2026-03-20');
    expect([run.status, run.stderr]).toEqual([0, '']);
    const [patient] = JSON.parse(run.stdout).patients;
    expect(patient.limbs).toEqual([]);
    const found = patient.measures.map((one: { visits: { mm: number; doubts: { kind: string }[] }[]; [key: string]: unknown }) => [
      one.part,
      one.side,
      one.measure,
      one.visits[0]?.mm,
      one.visits[0]?.doubts.map(({ kind }) => kind),
    ]);
    expect(found).toEqual([
      ['hand', 'left', 'hand-girth', 187, []],
      ['foot', 'right', 'foot-length', 346, ['tens-digit']],
    ]);
    const hip = measured({ limb: 'trunk', side: 'left', landmark: 'hip-girth', girth: '101' });
    refusedWith([put('hip.csv', file(hand, hip))], 'hip.csv: line 3, column side: The hip-girth is taken once: write middle.');
  });

  it('counts from the clinic’s policy when one is given', () => {
    const policy = put('policy.json', JSON.stringify({ measuringDays: 1, growthReference: 'who', verdictSds: 2 }));
    const run = analyse(
      '--scale',
      '1.6',
      put('ladders.csv', LADDERS),
      '--garments',
      put('pieces.csv', pieces({})),
      '--today',
      '2026-03-10',
      '--policy',
      policy,
    );
    const document = JSON.parse(run.stdout);
    expect([document.scale, document.patients[0].pieces[0].orderByDay]).toEqual([{ variance: 1.6, n: 0 }, '2026-04-05']);
    expect(run.stderr).toContain('policy.json: verdictSds no longer counts; alarmProbability took its place.');
  });

  it('stops at the first bad row with its line, column and reason, exit code 2 and nothing printed', () => {
    const bad = put('bad.csv', LADDERS.replace(',25,cm', ',2x5,cm'));
    refusedWith([bad], 'bad.csv: line 4, column girth: “2x5”');
    refusedWith(
      [put('ladders.csv', LADDERS), '--garments', put('bad-pieces.csv', pieces({ cut_from: '2026-01-06' }))],
      'bad-pieces.csv: line 2, column cut_from:',
    );
  });

  it('refuses what it is asked in the wrong way, one line each', () => {
    const ladders = put('ladders.csv', LADDERS);
    refusedWith([], 'Use: npm run -s analyse');
    refusedWith([ladders, ladders], 'Use: npm run -s analyse');
    refusedWith([path.join(folder, 'none.csv')], 'none.csv: cannot be read.');
    refusedWith([ladders, '--scale', '0'], '--scale: write learn, or a number above 0 such as 1 or 1.6, not 0.');
    refusedWith([ladders, '--today', '2026-02-30'], '--today: “2026-02-30” is not in the calendar.');
    refusedWith([ladders, '--policy', put('no.json', '{')], 'no.json: this is not JSON.');
    refusedWith([ladders, '--policy', put('odd.json', '{"bandHihg": 2}')], 'odd.json: ');
    refusedWith(
      [ladders, '--policy', put('band.json', '{"bandLow": 1.5}')],
      'bandLow: The working band must lie about the fitted tightness',
    );
    refusedWith([ladders, '--garment', 'x.csv'], "Unknown option '--garment'");
    refusedWith([put('latin.csv', Uint8Array.from([...Buffer.from(LADDERS), 0xe9, 0x0a]))], 'not UTF-8');
  });
});

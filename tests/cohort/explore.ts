import { DEFAULT_POLICY } from '@/lib/record/policy';
import { judgeChange } from '@/lib/trend/judged-change';
import { limbChange } from '@/lib/trend/limb-change';
import { limbSeries } from '@/lib/trend/limb-series';
import { calendarDay } from '@/lib/units/calendar-day';
import { readMass } from '@/lib/units/mass';
import { readLength } from '@/lib/units/read-length';
import { cone, syntheticLimbs } from '@/tests/cohort/limb-shape';
import { seeded } from '@/tests/cohort/random';
import { tapeLadder } from '@/tests/cohort/tape-ladder';

const policy = DEFAULT_POLICY;
function run(
  opts: {
    limb: 'leg' | 'arm';
    swell: number;
    marks: 'all' | 'zero only';
    sameMeasurer: boolean;
    moved: number;
    other: boolean;
    cone?: boolean;
    interval: number;
    unit: 'in' | 'cm';
  },
  n = 600,
  seed = 1,
) {
  const r = seeded(seed);
  const shapes = opts.cone ? [cone(opts.limb, 170, 270, 240)] : syntheticLimbs(opts.limb);
  const count: Record<string, number> = {};
  const find: Record<string, number> = {};
  let cover = 0,
    got = 0,
    zsum = 0,
    z2 = 0,
    usum = 0,
    u2 = 0,
    vcover = 0;
  for (let i = 0; i < n; i++) {
    const shape = r.pick(shapes);
    const scale = 0.9 + 0.4 * r.uniform();
    const mk = (t: number, swell: number, side: any, moved: number) =>
      tapeLadder(
        { shape, stretch: 1, factor: () => scale * (1 + swell) },
        side,
        {
          unit: opts.unit,
          intervalMm: opts.interval,
          direction: 'up',
          landmarks: opts.marks,
          readingSdMm: 3,
          placementSdMm: 5,
          tension: t,
          movedZeroMm: moved,
        },
        r,
      );
    const sd = opts.sameMeasurer ? 0.004 : 0.01;
    const t1 = r.normal(sd),
      t2 = r.normal(sd);
    const kgm = readMass('70 kg', 'kg');
    const h = readLength('170 cm', 'cm');
    const v = (day: string, t: number, swell: number, m: string, moved: number) => ({
      day: calendarDay(day),
      time: '10:00',
      posture: 'lying',
      measurer: m,
      height: h.kind === 'read' ? h.value : null,
      weight: kgm.kind === 'read' ? kgm.value : null,
      note: null,
      ladders: [mk(t, swell, 'left', moved), ...(opts.other ? [mk(t, 0, 'right', 0)] : [])],
    });
    const rec = {
      reference: 'x',
      born: calendarDay('1980-01-01'),
      sex: 'F' as const,
      affected: [{ limb: opts.limb, side: 'left' as const }],
      visits: [v('2026-01-01', t1, 0, 'A', 0), v('2026-03-01', t2, opts.swell, opts.sameMeasurer ? 'A' : 'B', opts.moved)],
      pieces: [],
    };
    const s = limbSeries(rec, policy);
    const L = s.find((x) => x.side === 'left')!;
    const R = s.find((x) => x.side === 'right');
    const c = limbChange(L.visits[0]!, L.visits[1]!, opts.limb, policy);
    if ('noAnswer' in c) {
      count['none ' + c.noAnswer] = (count['none ' + c.noAnswer] ?? 0) + 1;
      continue;
    }
    const o = R ? limbChange(R.visits[0]!, R.visits[1]!, opts.limb, policy) : undefined;
    const j = judgeChange(c, o && !('noAnswer' in o) ? o : undefined, policy);
    count[j.verdict] = (count[j.verdict] ?? 0) + 1;
    const f = c.shift?.finding ?? '-';
    find[f] = (find[f] ?? 0) + 1;
    if (j.explained) {
      got++;
      const e = Math.log(j.explained.unexplainedRatio) - Math.log(1 + opts.swell);
      const z = e / j.explained.sd;
      zsum += z;
      z2 += z * z;
      if (Math.abs(z) <= 1.96) cover++;
      usum += e;
      u2 += e * e;
      const ve = c.measured.volume.ratio / (1 + opts.swell) ** 2 - 1;
      if (Math.abs(ve) <= j.smallestRealChange) vcover++;
    }
  }
  const pc = (o: Record<string, number>) =>
    Object.entries(o)
      .map(([k, v]) => `${k} ${((100 * v) / n).toFixed(1)}%`)
      .join(', ');
  console.log(
    JSON.stringify({ ...opts }),
    '\n   ',
    pc(count),
    '|',
    pc(find),
    `| cover ${((100 * cover) / got).toFixed(1)} vol ${((100 * vcover) / got).toFixed(1)} zSD ${Math.sqrt(z2 / got).toFixed(2)} errSD ${(100 * Math.sqrt(u2 / got)).toFixed(2)}%`,
  );
}

for (const marks of ['all', 'zero only'] as const)
  for (const moved of [20, -20, 30, 38.1])
    run({ limb: 'leg', marks, other: false, sameMeasurer: true, swell: 0, moved, interval: 40, unit: 'cm' });
for (const marks of ['all', 'zero only'] as const)
  for (const [moved, swell] of [
    [0, 0],
    [20, 0],
    [0, 0.05],
    [0, 0.08],
  ])
    run({ limb: 'arm', marks, other: false, sameMeasurer: true, swell: swell!, moved: moved!, interval: 30, unit: 'cm', cone: true });
for (const limb of ['leg', 'arm'] as const)
  for (const marks of ['all', 'zero only'] as const)
    for (const other of [false, true])
      for (const swell of [0, 0.05]) run({ limb, marks, other, sameMeasurer: true, swell, moved: 0, interval: 38.1, unit: 'in' }, 1500, 9);

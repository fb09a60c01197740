import { describe, expect, it } from 'vitest';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { girthByPlace } from '@/lib/trend/girth-by-place';
import { limbSeries } from '@/lib/trend/limb-series';
import { volumeOverTime } from '@/lib/trend/volume-over-time';
import { ladderOf, recordOf, visitOf } from '../made-up-ladder';

/** A cone: 20 cm of girth at the crease, 1 cm more every 2 cm. */
const cone = (places: readonly number[]) => places.map((place) => [place, 20 + place / 2] as const);
const LANDMARKS = { knee: 28, 'gluteal-fold': 60 } as const;

function seriesOf(...ladders: ReturnType<typeof ladderOf>[]) {
  const visits = ladders.map((ladder, index) => visitOf(`2026-0${index + 1}-01`, [ladder]));
  const series = limbSeries(recordOf(visits), DEFAULT_POLICY)[0];
  if (!series) throw new Error('no series');
  return series;
}

/** Volume of the cone between two heights, ml, by the integral of (20 + z/2)² / 4π. */
const coneMl = (from: number, to: number): number => ((20 + to / 2) ** 3 - (20 + from / 2) ** 3) / (4 * Math.PI * 3 * 0.5);

describe('volume over time', () => {
  it('gives each visit its own volume, the figure of every screen, and leaves a ladder of another stretch out of the line', () => {
    const long = ladderOf({ girths: cone([4, 12, 20, 28, 36, 44, 52, 60]), landmarks: LANDMARKS });
    const short = ladderOf({ girths: cone([8, 16, 24, 32, 40, 48, 56]), landmarks: LANDMARKS });
    const over = volumeOverTime(seriesOf(long, short, long), DEFAULT_POLICY);
    expect(over?.spanMm.map(Math.round)).toEqual([40, 600]);
    expect(over?.leftOut).toEqual([{ day: '2026-02-01', why: 'its ladder covers another stretch than the newest' }]);
    expect(over?.points.map(({ atVisit }) => atVisit)).toEqual([0, 2]);
    for (const point of over?.points ?? []) expect(point.volumeMl).toBeCloseTo(coneMl(4, 60), 0);
  });

  it('puts a ladder taped downward and one taped upward on the same anatomy', () => {
    const up = ladderOf({ girths: cone([12, 20, 28, 36, 44, 52, 60]), landmarks: LANDMARKS });
    const down = ladderOf({
      girths: cone([60, 52, 44, 36, 28, 20, 12]).map(([place, girth]) => [60 - place, girth] as const),
      zero: 'gluteal-fold',
      direction: 'down',
      landmarks: { knee: 32, 'ankle-crease': 60 },
    });
    const over = volumeOverTime(seriesOf(up, down), DEFAULT_POLICY);
    expect(over?.points).toHaveLength(2);
    for (const point of over?.points ?? []) expect(point.volumeMl).toBeCloseTo(coneMl(12, 60), 1);
  });

  it('leaves out and names a visit that shares no landmark, and has nothing to say of one girth', () => {
    const known = ladderOf({ girths: cone([4, 12, 20]), landmarks: LANDMARKS });
    const unknown = ladderOf({ girths: cone([4, 12, 20]), zero: 'scar edge' });
    expect(volumeOverTime(seriesOf(unknown, known), DEFAULT_POLICY)?.leftOut).toHaveLength(1);
    expect(volumeOverTime(seriesOf(ladderOf({ girths: cone([4]) })), DEFAULT_POLICY)).toBeUndefined();
  });
});

describe('girth by place', () => {
  const before = ladderOf({ girths: cone([4, 12, 20, 28, 36, 44, 52, 60]), landmarks: LANDMARKS });
  const larger = ladderOf({
    girths: cone([4, 12, 20, 28, 36, 44, 52, 60]).map(([place, girth]) => [place, girth * 1.05] as const),
    landmarks: LANDMARKS,
  });

  it('has the place nearest the trunk on top and the change at the same anatomy beside each girth', () => {
    const rows = girthByPlace(seriesOf(before, larger), DEFAULT_POLICY, 'first');
    expect(rows[0]?.heightMm).toBeCloseTo(600, 6);
    for (const row of rows) expect(row.cells[1]?.change).toBeCloseTo(0.05, 6);
    expect(rows[0]?.cells[0]).toMatchObject({ text: '50', change: null });
  });

  it('has no cell where a visit did not tape', () => {
    const part = ladderOf({ girths: cone([4, 12, 20]), landmarks: LANDMARKS });
    const rows = girthByPlace(seriesOf(part, before), DEFAULT_POLICY, 'before');
    expect(rows[0]?.cells[0]).toBeNull();
    expect(rows.at(-1)?.cells[0]).not.toBeNull();
  });
});

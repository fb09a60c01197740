import { describe, expect, it } from 'vitest';
import { halfWidth, outlinePath } from '@/app/_picture/outline-path';
import { stretchedGirths, stretchFor } from '@/app/_picture/stretched-change';

const FRAME = { scale: 1, centreX: 100, zeroY: 400 };

/** Every coordinate pair of a path. */
function points(path: string): [number, number][] {
  const numbers = (path.match(/-?\d+(\.\d+)?/g) ?? []).map(Number);
  return numbers.flatMap((x, index) => (index % 2 === 0 ? [[x, numbers[index + 1] as number] as [number, number]] : []));
}

describe('the outline of a limb', () => {
  it('has half a width of girth / 2π: a circle of girth 2π·50 mm is 50 px wide to each side at 1 px a mm', () => {
    expect(halfWidth(2 * Math.PI * 50, 1)).toBeCloseTo(50, 12);
  });

  it('passes through every rung on both edges, the same distance from the centre line', () => {
    const girthsMm = [200, 240, 230, 300];
    const path = outlinePath({ heightsMm: [40, 80, 120, 160], girthsMm }, FRAME);
    const drawn = points(path.edges);
    for (const [rung, girth] of girthsMm.entries()) {
      const y = 400 - (rung + 1) * 40;
      for (const way of [1, -1]) {
        const x = 100 + (way * girth) / (2 * Math.PI);
        expect(drawn.some(([px, py]) => Math.abs(px - x) < 0.01 && Math.abs(py - y) < 0.01)).toBe(true);
      }
    }
  });

  it('never swells between two rungs beyond both of them (its control points stay between)', () => {
    const path = outlinePath({ heightsMm: [0, 40, 80, 120], girthsMm: [200, 300, 300, 210] }, FRAME);
    const widest = Math.max(...points(path.edges).map(([x]) => Math.abs(x - 100)));
    expect(widest).toBeLessThanOrEqual(halfWidth(300, 1) + 0.01);
  });

  it('runs each edge as one stroke where every rung is there, so that dashes do not begin anew', () => {
    const path = outlinePath({ heightsMm: [0, 40, 80, 120], girthsMm: [200, 220, 240, 260] }, FRAME);
    expect(path.edges.match(/M/g)).toHaveLength(2);
    expect(path.dotted).toBe('');
  });

  it('dots the gap of a rung in doubt and of a missing rung', () => {
    expect(outlinePath({ heightsMm: [0, 40, 80, 120], girthsMm: [200, 500, 240, 260], doubtful: [1] }, FRAME).dotted).not.toBe('');
    expect(outlinePath({ heightsMm: [0, 40, 80, 160, 200, 240], girthsMm: [200, 210, 220, 240, 250, 260] }, FRAME).dotted).not.toBe('');
  });

  it('draws nothing for a single rung', () => {
    expect(outlinePath({ heightsMm: [40], girthsMm: [200] }, FRAME)).toEqual({ edges: '', dotted: '', fill: '' });
  });
});

describe('the change since an earlier visit', () => {
  it('is stretched by the smallest of 1 to 4 that makes the largest change at least 5 px', () => {
    const tenPx = 2 * Math.PI * 10;
    expect(stretchFor([300], [300 - tenPx], 1)).toBe(1);
    expect(stretchFor([300], [300 - tenPx / 4], 1)).toBe(2);
    expect(stretchFor([300], [299], 1)).toBe(4);
  });

  it('stretches the difference from today and never crosses the centre line', () => {
    expect(stretchedGirths([300, 20], [290, 10], 3)).toEqual([270, 0]);
  });
});

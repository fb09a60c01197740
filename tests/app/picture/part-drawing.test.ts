import { describe, expect, it } from 'vitest';
import { around, closed } from '@/app/_picture/parts/pen';
import { tapeWay } from '@/app/_picture/parts/tape-ways';
import { VIEWS } from '@/app/_picture/parts/views';
import { MEASURES } from '@/lib/parts/catalogue';

/** Every coordinate pair that a path names, with absolute M, L, Q, C, H, V. */
function pointsOf(path: string): [number, number][] {
  const points: [number, number][] = [];
  for (const [, command, rest] of path.matchAll(/([MLQCHVZ])([^MLQCHVZ]*)/g)) {
    const figures = (rest ?? '').match(/-?\d+(\.\d+)?/g)?.map(Number) ?? [];
    const last = points.at(-1) ?? [0, 0];
    if (command === 'H') points.push([figures[0] ?? 0, last[1]]);
    else if (command === 'V') points.push([last[0], figures[0] ?? 0]);
    else for (let at = 0; at + 1 < figures.length; at += 2) points.push([figures[at] as number, figures[at + 1] as number]);
  }
  return points;
}

describe('the drawing of the tape’s way', () => {
  it('is there for every measure of the catalogue, each another one within its view, inside its box', () => {
    const seen = new Map<string, string>();
    for (const { id, part, kind } of MEASURES) {
      const drawn = tapeWay(id);
      if (!drawn) throw new Error(`no drawing of ${id}`);
      const { width, height } = VIEWS[drawn.view];
      const path = drawn.way.seen + drawn.way.behind;
      expect(path, id).not.toBe('');
      for (const [x, y] of pointsOf(path)) {
        expect(x >= -1 && x <= width + 1 && y >= -1 && y <= height + 1, `${id}: ${x} ${y}`).toBe(true);
      }
      if (part !== 'residual-limb') {
        expect(seen.get(`${drawn.view} ${path}`), id).toBeUndefined();
        seen.set(`${drawn.view} ${path}`, id);
      }
      // A girth goes round: something of it is behind the part.
      if (kind === 'girth') expect(drawn.way.behind, id).not.toBe('');
    }
  });

  it('every view is drawn inside its own box', () => {
    for (const [name, { width, height, outline }] of Object.entries(VIEWS))
      for (const [x, y] of pointsOf(outline)) expect(x >= 0 && x <= width && y >= 0 && y <= height, `${name}: ${x} ${y}`).toBe(true);
  });

  it('the pen closes its line, and a girth is the same line in front and behind, bent the other way', () => {
    expect(
      closed([
        [0, 0],
        [4, 0],
        [4, 4],
      ]),
    ).toBe('M2 2Q0 0 2 0Q4 0 4 2Q4 4 2 2Z');
    expect(around([0, 10], [10, 10], 0.2)).toEqual({ seen: 'M0 10Q5 12 10 10', behind: 'M0 10Q5 8 10 10' });
  });
});

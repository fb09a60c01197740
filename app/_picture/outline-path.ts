import { monotoneCubic } from '@/lib/alignment/monotone-cubic';

/** A limb to draw: heights rising and girths, mm, and the stretches (by lower rung) that are missing or in doubt. */
export type Outline = {
  readonly heightsMm: readonly number[];
  readonly girthsMm: readonly number[];
  readonly doubtful?: readonly number[];
};

/** Where and how large: px per mm on both axes, the limb's centre line, and y of height 0. */
export type Frame = {
  readonly scale: number;
  readonly centreX: number;
  readonly zeroY: number;
};

/** SVG path data of a limb's outline. */
export type OutlinePath = {
  readonly edges: string;
  readonly dotted: string;
  readonly fill: string;
};

/** Half of the drawn width of a girth, px: the radius of the circle of that girth. */
export function halfWidth(girthMm: number, scale: number): number {
  return (girthMm / (2 * Math.PI)) * scale;
}

/** y of a height, px; up is towards the trunk. */
export function yOf(heightMm: number, frame: Frame): number {
  return frame.zeroY - heightMm * frame.scale;
}

/**
 * The outline of a limb in true proportion: a monotone cubic through the rungs, open at both ends.
 *
 * A rung in doubt is left out; the gap over it is dotted. Volume is never read from this curve.
 * Shape: mm in, px path data out. Source: Fritsch and Butland 1984 for the slopes; Bézier handles at a third of each gap.
 */
export function outlinePath(outline: Outline, frame: Frame): OutlinePath {
  const doubtful = new Set(outline.doubtful ?? []);
  const rungs = outline.heightsMm
    .map((height, index) => ({
      height,
      girth: outline.girthsMm[index] as number,
      index,
    }))
    .filter(({ index }) => !doubtful.has(index));
  if (rungs.length < 2) return { edges: '', dotted: '', fill: '' };
  const cubic = monotoneCubic(
    rungs.map((rung) => rung.height),
    rungs.map((rung) => halfWidth(rung.girth, frame.scale)),
  );
  const right: string[] = [];
  const edges: Record<1 | -1, string[]> = { 1: [], [-1]: [] };
  const dotted: string[] = [];
  const usual = median(outline.heightsMm.slice(1).map((height, index) => height - (outline.heightsMm[index] as number)));
  let running = false;
  for (let lower = 0; lower + 1 < rungs.length; lower++) {
    const below = rungs[lower] as (typeof rungs)[number];
    const above = rungs[lower + 1] as (typeof rungs)[number];
    const missing = above.index - below.index > 1 || above.height - below.height > 1.6 * usual;
    right.push(onwards(cubic, lower, frame, 1, lower > 0));
    for (const way of [1, -1] as const) {
      if (missing) dotted.push(onwards(cubic, lower, frame, way, false));
      else edges[way].push(onwards(cubic, lower, frame, way, running));
    }
    running = !missing;
  }
  const last = rungs.length - 1;
  return {
    edges: edges[1].join('') + edges[-1].join(''),
    dotted: dotted.join(''),
    fill: `${right.join('')}L${point(cubic, last, frame, -1)}${backwards(cubic, frame)}Z`,
  };
}

type Cubic = ReturnType<typeof monotoneCubic>;

/** The curve of one gap; it goes on from the one before, so that dashes run through, or begins anew. */
function onwards(cubic: Cubic, lower: number, frame: Frame, way: 1 | -1, goesOn: boolean): string {
  const [first, second] = handles(cubic, lower, frame, way);
  const start = goesOn ? '' : `M${point(cubic, lower, frame, way)}`;
  return `${start}C${first} ${second} ${point(cubic, lower + 1, frame, way)}`;
}

function handles(cubic: Cubic, lower: number, frame: Frame, way: 1 | -1): [string, string] {
  const from = cubic.placesMm[lower] as number;
  const to = cubic.placesMm[lower + 1] as number;
  const third = (to - from) / 3;
  const near = (cubic.girthsMm[lower] as number) + (cubic.slopes[lower] as number) * third;
  const far = (cubic.girthsMm[lower + 1] as number) - (cubic.slopes[lower + 1] as number) * third;
  return [xy(near, from + third, frame, way), xy(far, to - third, frame, way)];
}

/** The left edge from the top down, to close the fill. */
function backwards(cubic: Cubic, frame: Frame): string {
  const parts: string[] = [];
  for (let lower = cubic.placesMm.length - 2; lower >= 0; lower--) {
    const [first, second] = handles(cubic, lower, frame, -1);
    parts.push(`C${second} ${first} ${point(cubic, lower, frame, -1)}`);
  }
  return parts.join('');
}

function point(cubic: Cubic, rung: number, frame: Frame, way: 1 | -1): string {
  return xy(cubic.girthsMm[rung] as number, cubic.placesMm[rung] as number, frame, way);
}

function xy(halfPx: number, heightMm: number, frame: Frame, way: 1 | -1): string {
  return `${round(frame.centreX + way * halfPx)} ${round(yOf(heightMm, frame))}`;
}

/** Two decimals are a fiftieth of a pixel. */
export function round(px: number): number {
  return Math.round(px * 100) / 100;
}

function median(values: readonly number[]): number {
  return [...values].sort((low, high) => low - high)[Math.floor(values.length / 2)] ?? 0;
}

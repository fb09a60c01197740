import { round } from '../outline-path';

export type Point = readonly [x: number, y: number];

/** A closed soft line through the middles of the points' connections, each point its handle. */
export function closed(points: readonly Point[]): string {
  const middle = (one: Point, other: Point): Point => [(one[0] + other[0]) / 2, (one[1] + other[1]) / 2];
  const ends = points.map((point, index) => middle(point, points[(index + 1) % points.length] as Point));
  const start = ends.at(-1) as Point;
  return `M${xy(start)}${points.map((point, index) => `Q${xy(point)} ${xy(ends[index] as Point)}`).join('')}Z`;
}

/** Where the tape goes in a drawing: what is seen of it, and what goes on behind. */
export type Way = { readonly seen: string; readonly behind: string };

/** Round from one edge to the other: seen in front, dotted behind. */
export function around(from: Point, to: Point, sag = 0.16): Way {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const middle: Point = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  const front: Point = [middle[0] - dy * sag, middle[1] + dx * sag];
  const back: Point = [middle[0] + dy * sag, middle[1] - dx * sag];
  return { seen: `M${xy(from)}Q${xy(front)} ${xy(to)}`, behind: `M${xy(from)}Q${xy(back)} ${xy(to)}` };
}

/** Along a line from mark to mark, a tick at each end. */
export function along(...points: readonly [Point, Point, ...Point[]]): Way {
  const [first, second] = points;
  const [last, before] = [points.at(-1) as Point, points.at(-2) as Point];
  return { seen: `M${points.map(xy).join('L')}${tick(first, second)}${tick(last, before)}`, behind: '' };
}

/** The same, but behind the body. */
export function behind(...points: readonly [Point, Point, ...Point[]]): Way {
  return { seen: '', behind: along(...points).seen };
}

/** Both of them. */
export function both(one: Way, other: Way): Way {
  return { seen: one.seen + other.seen, behind: one.behind + other.behind };
}

const TICK = 4;

function tick(at: Point, towards: Point): string {
  const [dx, dy] = [towards[0] - at[0], towards[1] - at[1]];
  const length = Math.hypot(dx, dy);
  const [x, y] = [(-dy / length) * TICK, (dx / length) * TICK];
  return `M${xy([at[0] - x, at[1] - y])}L${xy([at[0] + x, at[1] + y])}`;
}

function xy([x, y]: Point): string {
  return `${round(x)} ${round(y)}`;
}

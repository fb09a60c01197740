import { readFileSync } from 'node:fs';
import path from 'node:path';
import { cubicAt, monotoneCubic } from '@/lib/alignment/monotone-cubic';
import type { LimbKind } from '@/lib/ladder/limb';
import type { LimbShape } from './dense-limb';
import { syntheticLimbs } from './synthetic-limbs';

/** Anatomical place of a shape: 0 at the distal landmark, 1 at the middle one, 2 at the proximal one. */
export function anatomyOf(shape: LimbShape, placeMm: number): number {
  return placeMm <= shape.middleMm ? placeMm / shape.middleMm : 1 + (placeMm - shape.middleMm) / (shape.proximalMm - shape.middleMm);
}

/** Limbs on which nothing was tuned: real people, taped at few levels, with a smooth line through them. */
export function heldOutLimbs(limb: LimbKind): LimbShape[] {
  return limb === 'leg' ? [...yeadonLimbs('leg'), ...slackLegs()] : yeadonLimbs('arm');
}

/** The limbs that the engine's defaults were looked at with. */
export function tunedLimbs(limb: LimbKind): LimbShape[] {
  return syntheticLimbs(limb);
}

/**
 * Three people, both sides, five levels a limb. Source: yeadon sample files (see tests/reference/body/README.md).
 *
 * The gluteal fold is put at the crotch level, the axillary fold 6 cm below the shoulder joint (from memory).
 */
function yeadonLimbs(limb: LimbKind): LimbShape[] {
  const limbs = new Map<string, { level: string; down: number; girth: number }[]>();
  for (const row of rowsOf('yeadon_sample_ladders.csv')) {
    const [person, kind, side, level, distance, girth] = row as [string, string, string, string, string, string];
    if (kind !== limb) continue;
    const key = `${person} ${side}`;
    limbs.set(key, [...(limbs.get(key) ?? []), { level, down: Number(distance) * 10, girth: Number(girth) * 10 }]);
  }
  return [...limbs].flatMap(([body, levels]) => {
    const end = Math.max(...levels.map((one) => one.down));
    const middle = levels.find((one) => one.level === (limb === 'leg' ? 'knee_joint_centre' : 'elbow_joint_centre'));
    const top = limb === 'leg' ? (levels[0]?.down ?? 0) : 60;
    const points = levels.map((one) => ({ place: end - one.down, girth: one.girth })).sort((one, other) => one.place - other.place);
    return middle ? [smooth(body, limb, end - middle.down, end - top, points)] : [];
  });
}

/**
 * Women's legs at six levels, every fourth of the first eighty that have no suspicious value. Source: Slack 1997 (README).
 *
 * Heights of the levels are usual shares of stature (ANSUR II 2012): ankle 0.03 H above the crease, calf 0.155, knee 0.2365, thigh 0.2765 to 0.40.
 */
function slackLegs(): LimbShape[] {
  const suspect = new Set(rowsOf('suspect_values.csv').map(([set, row]) => `${set} ${row}`));
  return rowsOf('slack1997_women_ladders.csv').flatMap((row, index) => {
    const [number, , , , height, upper, mid, lower, knee, calf, ankle] = row;
    if (index % 4 !== 0 || index >= 80 || suspect.has(`slack1997_women_ladders.csv ${number}`)) return [];
    const stature = Number(height) * 10;
    const shares = [0.03, 0.155, 0.2365, 0.2765, 0.34, 0.4];
    const points = [ankle, calf, knee, lower, mid, upper].map((girth, level) => ({
      place: (shares[level] as number) * stature,
      girth: Number(girth) * 10,
    }));
    return [smooth(`slack ${number}`, 'leg', 0.2365 * stature, 0.41 * stature, points)];
  });
}

function smooth(body: string, limb: LimbKind, middleMm: number, proximalMm: number, points: { place: number; girth: number }[]): LimbShape {
  const line = monotoneCubic(
    points.map((point) => point.place),
    points.map((point) => point.girth),
  );
  const first = points[0]?.place ?? 0;
  const last = points.at(-1)?.place ?? 0;
  const at = { girthMm: 0, slope: 0 };
  return {
    body,
    limb,
    middleMm,
    proximalMm,
    girthMm: (place) => cubicAt(line, Math.min(Math.max(place, first), last), at).girthMm,
  };
}

function rowsOf(file: string): string[][] {
  const text = readFileSync(path.resolve(import.meta.dirname, '../reference/body', file), 'utf8');
  return text
    .trim()
    .split('\n')
    .slice(1)
    .map((row) => row.split(','));
}

/** A straight cone, on which a moved zero and a change of girth look alike. */
export function cone(limb: LimbKind, distalGirthMm: number, proximalGirthMm: number, lengthMm: number): LimbShape {
  return {
    body: 'cone',
    limb,
    middleMm: lengthMm / 2,
    proximalMm: lengthMm,
    girthMm: (place) => distalGirthMm + ((proximalGirthMm - distalGirthMm) * place) / lengthMm,
  };
}

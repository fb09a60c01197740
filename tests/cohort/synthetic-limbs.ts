import { readFileSync } from 'node:fs';
import path from 'node:path';
import { girthAt } from '@/lib/ladder/girth-at';
import type { LimbKind } from '@/lib/ladder/limb';
import type { LimbShape } from './dense-limb';

const FILE = path.resolve(import.meta.dirname, '../reference/body/synthetic_leg_arm_profiles.csv');

/**
 * Limbs of model bodies, a slice every centimetre. Source: computed from a CC0 mesh (see tests/reference/body/README.md);
 * artist-made, so real only in their general shape. Below the first slice the girth is held.
 */
export function syntheticLimbs(limb: LimbKind): LimbShape[] {
  const bodies = new Map<string, { places: number[]; girths: number[]; middle: number }>();
  for (const row of readFileSync(FILE, 'utf8').trim().split('\n').slice(1)) {
    const [body, kind, segment, distance, girth] = row.split(',') as [string, string, string, string, string];
    if (kind !== limb) continue;
    const one = bodies.get(body) ?? { places: [], girths: [], middle: 0 };
    one.places.push(Number(distance) * 10);
    one.girths.push(Number(girth) * 10);
    if (segment === 'lower_leg' || segment === 'forearm') one.middle = Number(distance) * 10 + 5;
    bodies.set(body, one);
  }
  return [...bodies].map(([body, { places, girths, middle }]) => ({
    body,
    limb,
    middleMm: middle,
    proximalMm: places[places.length - 1] as number,
    girthMm: (place) =>
      girthAt(places, girths, Math.min(Math.max(place, places[0] as number), places[places.length - 1] as number)) as number,
  }));
}

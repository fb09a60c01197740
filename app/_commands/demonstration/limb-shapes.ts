import type { LimbKind } from '@/lib/ladder/limb';

/** Whose limb the made-up one is shaped like. */
export type BodyShape = 'child' | 'woman' | 'man';

type Shape = { readonly heightCm: number; readonly weightKg: number; readonly girthsCm: Readonly<Record<LimbKind, readonly number[]>> };

/**
 * Girths of one average child, woman and man at 21 equal steps: 0 at the distal landmark, 1 at the middle, 2 at the proximal one.
 *
 * Form: slices of artist-made body models (MakeHuman base mesh, assets CC0), not of measured people. Size: scaled at ankle, calf,
 * lower thigh and thigh, at wrist, forearm and upper arm to means of measured people: adults ANSUR II 2012 (US Army survey,
 * approved for public release), the child Snyder et al. 1977 (US government survey; 750 children of 125 to 141 cm).
 */
const SHAPES: Readonly<Record<BodyShape, Shape>> = {
  child: {
    heightCm: 133.4,
    weightKg: 30.1,
    girthsCm: {
      leg: [18.3, 18.5, 19.5, 21.3, 23.5, 25.5, 27.1, 27.6, 26.9, 26.0, 25.4, 25.9, 27.0, 28.7, 31.1, 33.5, 35.6, 37.3, 38.7, 39.9, 41.0],
      arm: [13.3, 13.8, 15.0, 16.3, 17.5, 18.3, 19.2, 19.9, 19.8, 20.0, 20.4, 20.0, 19.8, 19.8, 19.8, 19.8, 19.9, 20.6, 21.6, 23.0, 24.5],
    },
  },
  woman: {
    heightCm: 162.8,
    weightKg: 67.8,
    girthsCm: {
      leg: [21.6, 22.0, 24.4, 28.0, 31.9, 34.9, 37.1, 37.9, 37.1, 35.7, 35.5, 37.1, 38.6, 40.1, 42.7, 45.6, 48.7, 51.6, 54.2, 56.8, 60.0],
      arm: [15.5, 16.5, 18.1, 19.6, 21.1, 22.3, 23.6, 24.7, 25.0, 25.3, 26.1, 26.4, 26.8, 27.4, 27.8, 28.3, 29.0, 29.7, 30.4, 31.3, 32.4],
    },
  },
  man: {
    heightCm: 175.6,
    weightKg: 85.5,
    girthsCm: {
      leg: [22.9, 22.9, 23.9, 26.2, 29.3, 32.7, 35.9, 38.1, 39.2, 38.5, 36.8, 37.1, 38.7, 40.9, 44.3, 48.6, 52.3, 54.5, 56.7, 58.9, 60.8],
      arm: [17.6, 18.6, 20.5, 22.3, 24.2, 26.0, 27.5, 28.7, 29.4, 30.3, 32.5, 32.6, 33.3, 34.1, 34.3, 34.2, 34.0, 34.3, 35.1, 36.3, 37.6],
    },
  },
};

/** Girth against weight and height, at ankle or wrist, at calf or forearm, at thigh or upper arm. Sources as above. */
const EXPONENTS: Readonly<
  Record<'child' | 'grown', Readonly<Record<LimbKind, readonly (readonly [at: number, kw: number, kh: number])[]>>>
> = {
  child: {
    leg: [
      [0.1, 0.4, -0.3],
      [0.75, 0.45, -0.3],
      [1.9, 0.6, -0.55],
    ],
    arm: [
      [0, 0.42, -0.4],
      [0.75, 0.47, -0.4],
      [1.5, 0.7, -0.9],
    ],
  },
  grown: {
    leg: [
      [0.1, 0.28, 0],
      [0.75, 0.42, 0],
      [1, 0.38, 0],
      [1.9, 0.55, 0],
    ],
    arm: [
      [0, 0.2, 0],
      [0.75, 0.38, 0],
      [1.5, 0.6, 0],
    ],
  },
};

/** Linear between rows by their first figure; the outer row's beyond it. */
function between(rows: readonly (readonly [number, number, number])[], at: number): readonly [kw: number, kh: number] {
  const above = rows.findIndex(([place]) => place >= at);
  const upper = rows[above === -1 ? rows.length - 1 : above] as readonly [number, number, number];
  const lower = rows[above <= 0 ? (above === 0 ? 0 : rows.length - 1) : above - 1] as readonly [number, number, number];
  const share = upper[0] === lower[0] ? 0 : (at - lower[0]) / (upper[0] - lower[0]);
  return [lower[1] + share * (upper[1] - lower[1]), lower[2] + share * (upper[2] - lower[2])];
}

/** Girth in cm of a made-up limb at an anatomical place (0 to 2) for a height and weight: shape × (W/W₀)^kw × (H/H₀)^kh. */
export function shapeGirthCm(shape: BodyShape, limb: LimbKind, place: number, body: { heightCm: number; weightKg: number }): number {
  const reference = SHAPES[shape];
  const girths = reference.girthsCm[limb];
  const step = Math.min(Math.max(place, 0), 2) * 10;
  const below = Math.min(Math.floor(step), girths.length - 2);
  const lower = girths[below] as number;
  const girth = lower + (step - below) * ((girths[below + 1] as number) - lower);
  const [kw, kh] = between(EXPONENTS[shape === 'child' ? 'child' : 'grown'][limb], place);
  return girth * (body.weightKg / reference.weightKg) ** kw * (body.heightCm / reference.heightCm) ** kh;
}

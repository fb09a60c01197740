import type { Policy } from './policy';

/** How far one reading, and one placing of the tape, lies from the truth in this clinic: SD, mm. */
export type TapeSds = { readonly readingMm: number; readonly placementMm: number };

/** Both as the clinic has set them, times the square root of its scale of error (a variance). Example: 3 mm and a scale of 2.25: 4.5 mm. */
export function tapeSds({ readingSdMm, placementSdMm, errorScale }: Policy): TapeSds {
  const factor = Math.sqrt(errorScale);
  return { readingMm: readingSdMm * factor, placementMm: placementSdMm * factor };
}

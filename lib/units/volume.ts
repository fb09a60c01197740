/** A volume in millilitres (cm³), for arithmetic. */
export type Millilitres = number & { readonly unit: 'ml' };

/** Cubic millimetres as millilitres: 1 ml = 1 cm³ = 1,000 mm³ exactly (SI). Example: 2,000,000 mm³ are 2000 ml. */
export function millilitres(cubicMm: number): Millilitres {
  return (cubicMm / 1000) as Millilitres;
}

/** A volume with its unit and thousands: `4,701 ml`. Rounds only for showing. */
export function showVolume(volumeMl: number): string {
  return `${thousands(Math.round(volumeMl))}\u202fml`;
}

/** A whole number with a comma between thousands. Example: 4701 is `4,701`. */
export function thousands(whole: number): string {
  return String(whole).replace(/\B(?=(\d{3})+(?!\d))/g, ',');
}

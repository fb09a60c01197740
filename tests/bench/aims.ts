/** What each ratio of the bench shall not pass. Kept where it is printed; an aim that is missed is said and not moved. */
export const AIMS = {
  today: 1.4,
  /** The page of service figures against the first page of Today, opened again and opened for the first time after a write. */
  service: 2,
  patient: 2,
  save: 2,
  renewal: 4,
  firstLoad: 1.08,
  firstLoadOfSheet: 1.15,
} as const;

/** A ratio may pass its aim by so much, as measuring wavers, before the bench counts it as missed. */
const WAVERS = 1.1;

/** Status of a process of the bench in which an aim was missed by more than that. */
export const MISSED = 3;

const missed: string[] = [];

/** A ratio beside its aim, in words; a clear miss is counted. Example: `2.41 times, aim 2: missed`. */
export function besideAim(what: string, ratio: number, aim: number | undefined): string {
  if (aim === undefined) return `${ratio.toFixed(2)} times`;
  const isMissed = !(ratio <= aim * WAVERS);
  if (isMissed) missed.push(what);
  return `${ratio.toFixed(2)} times, aim ${aim}${isMissed ? ': missed' : ratio > aim ? ': missed by a hair' : ''}`;
}

/** Says which aims this process missed, and ends it with `MISSED` if there are any. */
export function sayMissed(): void {
  if (missed.length === 0) return;
  console.log(`  aims missed by more than a tenth: ${missed.join('; ')}`);
  process.exitCode = MISSED;
}

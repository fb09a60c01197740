import { seeded } from '@/tests/cohort/random';

/** Standard normal numbers from a seed. */
export function normalFrom(seed: number): () => number {
  const random = seeded(seed);
  return () => random.normal(1);
}

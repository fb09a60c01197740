import { expect, it } from 'vitest';
import { LIMIT_GROUPS, LIMITS } from '@/lib/limits/limits';

// A set property: the groups are a partition of the limits, so none is left off the screen and none stands twice.
it('every limit stands in exactly one group of the screen', () => {
  const grouped = LIMIT_GROUPS.flatMap(({ limits }) => limits);
  expect([...grouped].sort()).toEqual(Object.keys(LIMITS).sort());
});

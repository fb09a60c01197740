import { defineConfig } from 'vitest/config';
import shared from '../vitest.config';

/**
 * The tests that mutants are run against: those of `lib` that compute, the worked examples and the properties of the
 * engine. What reads and writes whole files takes seconds a test and tells mutants of the arithmetic no better.
 */
export default defineConfig({
  ...shared,
  test: {
    ...shared.test,
    include: ['tests/answers/*.test.ts', 'tests/lib/**/*.test.ts', 'tests/worked-examples/**/*.test.ts', 'tests/properties/engine.test.ts'],
    exclude: ['tests/lib/exchange/{s,f}**', 'tests/lib/exchange/fhir/**', 'tests/lib/summary/**'],
  },
});

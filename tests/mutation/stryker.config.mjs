/** Single changes to `lib`, each run against the tests that reach it; `run.ts` says which rooms. */
export default {
  packageManager: 'npm',
  plugins: ['@stryker-mutator/vitest-runner'],
  testRunner: 'vitest',
  vitest: { configFile: 'tests/mutation/vitest.config.ts', related: false },
  coverageAnalysis: 'perTest',
  /** A constant of a module is reached by every test: changed, it would cost the whole run. The limits have tests of their own. */
  ignoreStatic: true,
  /** Words are for people: the tests of sentences look at those that matter. */
  mutator: { excludedMutations: ['StringLiteral'] },
  concurrency: 2,
  dryRunTimeoutMinutes: 20,
  ignorePatterns: ['.next', 'data', 'test-results', 'public'],
  tempDirName: 'test-results/mutants/work',
  reporters: ['json'],
  logLevel: 'error',
  jsonReporter: { fileName: 'test-results/mutants/mutants.json' },
  /** TypeScript 7 has no interface that the rewriting of its settings could call; nothing in them needs rewriting. */
  tsconfigFile: 'tests/mutation/none.json',
};

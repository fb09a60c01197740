import fs from 'node:fs';

/**
 * Tests passed and failed in a Vitest report.
 *
 * A file that could not be loaded counts as one failed. No report at all is one failed.
 */
export function countVitest(file) {
  const report = readReport(file);
  if (!report) return { passed: 0, failed: 1 };
  const unloaded = report.testResults.filter(
    (one) => one.status === 'failed' && one.assertionResults.every((test) => test.status !== 'failed'),
  );
  return { passed: report.numPassedTests, failed: report.numFailedTests + unloaded.length };
}

/**
 * Tests passed and failed in a Playwright report.
 *
 * One that passed only when it was tried again counts as passed and is named in `unsteady`; each error outside a test counts as failed.
 * No report at all is one failed.
 */
export function countPlaywright(file) {
  const report = readReport(file);
  if (!report) return { passed: 0, failed: 1, unsteady: [] };
  const { expected, unexpected, flaky } = report.stats;
  return { passed: expected + flaky, failed: unexpected + (report.errors?.length ?? 0), unsteady: unsteadyIn(report.suites ?? []) };
}

function unsteadyIn(suites) {
  return suites.flatMap((suite) => [
    ...(suite.specs ?? []).filter(({ tests }) => tests.some(({ status }) => status === 'flaky')).map(({ title }) => title),
    ...unsteadyIn(suite.suites ?? []),
  ]);
}

/** A run's counts, with one failed added when it ended badly although no test says so. */
export function withExitCode(counts, code) {
  return code !== 0 && counts.failed === 0 ? { ...counts, failed: 1 } : counts;
}

function readReport(file) {
  try {
    return JSON.parse(fs.readFileSync(file, 'utf8'));
  } catch {
    return undefined;
  }
}

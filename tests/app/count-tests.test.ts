import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { countPlaywright, countVitest, withExitCode } from '@/app/_commands/project/count-tests.mjs';

describe('the count at the end of verify', () => {
  let folder: string;
  beforeAll(() => {
    folder = fs.mkdtempSync(path.join(os.tmpdir(), 'rungwise-count-'));
  });
  afterAll(() => fs.rmSync(folder, { recursive: true, force: true }));

  function report(content: unknown): string {
    const file = path.join(folder, `${crypto.randomUUID()}.json`);
    fs.writeFileSync(file, typeof content === 'string' ? content : JSON.stringify(content));
    return file;
  }

  it('adds a failed file that could not be loaded to the failed tests of the others', () => {
    const loaded = { status: 'failed', assertionResults: [{ status: 'passed' }, { status: 'failed' }] };
    const unloaded = { status: 'failed', assertionResults: [] };
    const file = report({ numPassedTests: 1, numFailedTests: 1, testResults: [loaded, unloaded] });
    expect(countVitest(file)).toEqual({ passed: 1, failed: 2 });
  });

  it('counts an error outside any browser test as failed, and names what passed only when tried again', () => {
    const inner = {
      specs: [
        { title: 'steady', tests: [{ status: 'expected' }] },
        { title: 'shaky', tests: [{ status: 'flaky' }] },
      ],
    };
    const stats = { expected: 20, unexpected: 2, flaky: 1, skipped: 4 };
    const file = report({ stats, suites: [{ specs: [], suites: [inner] }], errors: [{ message: 'server' }] });
    expect(countPlaywright(file)).toEqual({ passed: 21, failed: 3, unsteady: ['shaky'] });
  });

  it('counts a missing or torn report as one failed', () => {
    expect(countVitest(path.join(folder, 'none.json'))).toEqual({ passed: 0, failed: 1 });
    expect(countPlaywright(report('{"stats":'))).toEqual({ passed: 0, failed: 1, unsteady: [] });
  });

  it('never says that nothing failed when the run ended badly', () => {
    expect(withExitCode({ passed: 9, failed: 0 }, 1)).toEqual({ passed: 9, failed: 1 });
    expect(withExitCode({ passed: 9, failed: 2 }, 1)).toEqual({ passed: 9, failed: 2 });
    expect(withExitCode({ passed: 9, failed: 0 }, 0)).toEqual({ passed: 9, failed: 0 });
  });
});

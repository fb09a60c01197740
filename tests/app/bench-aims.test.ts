import { afterEach, describe, expect, it, vi } from 'vitest';

describe('aims of the bench', () => {
  afterEach(() => {
    process.exitCode = undefined;
    vi.resetModules();
    vi.restoreAllMocks();
  });

  it('a ratio stands beside its aim; more than a tenth above it is missed, named, and ends the process with a status of its own', async () => {
    const said = vi.spyOn(console, 'log').mockImplementation(() => undefined);
    const { besideAim, MISSED, sayMissed } = await import('@/tests/bench/aims');
    expect(besideAim('free', 9, undefined)).toBe('9.00 times');
    expect(besideAim('kept', 1.9, 2)).toBe('1.90 times, aim 2');
    expect(besideAim('nearly', 2.2, 2)).toBe('2.20 times, aim 2: missed by a hair');
    sayMissed();
    expect([process.exitCode, said.mock.calls]).toEqual([undefined, []]);
    expect(besideAim('far', 2.21, 2)).toBe('2.21 times, aim 2: missed');
    expect(besideAim('no ratio', Number.NaN, 2)).toContain('missed');
    sayMissed();
    expect([process.exitCode, said.mock.calls]).toEqual([MISSED, [['  aims missed by more than a tenth: far; no ratio']]]);
  });
});

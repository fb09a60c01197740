import { describe, expect, it } from 'vitest';
import { tapingReminders } from '@/lib/ladder/taping-reminders';

describe('what to see to when a limb is measured', () => {
  it('is said of any limb and of the one taped, each with its source', () => {
    const [arm, leg] = [tapingReminders('arm'), tapingReminders('leg')];
    const both = arm.filter(({ words }) => leg.some((one) => one.words === words));
    expect(both.length).toBeGreaterThan(0);
    expect(arm.length).toBeGreaterThan(both.length);
    expect(leg.length).toBeGreaterThan(both.length);
    for (const { words, source } of [...arm, ...leg]) {
      expect(words).toMatch(/^\p{Lu}.*\.$/u);
      expect(source).toMatch(/^(published|common practice|clinic default)/);
    }
  });
});

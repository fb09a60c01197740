import { describe, expect, it } from 'vitest';
import { limitInWords } from '@/lib/limits/limit-in-words';
import { LIMITS, type LimitName } from '@/lib/limits/limits';
import { DEFAULT_POLICY, policyWith } from '@/lib/limits/policy';

// What is asked of every threshold on screen: its figure in this clinic, its source and the kind of source (our own requirement).
describe('a limit in words', () => {
  it('shows the figure the clinic set, that it is the clinic’s own, and the default beside it', () => {
    const words = limitInWords('growthGirthPct', policyWith({ growthGirthPct: 3 }));
    expect(words).toMatch(/This clinic’s own: 3 % \(default 2 %\)\./);
    expect(words).toMatch(/Clinic default: About half a year of mid-childhood growth/);
  });

  it('says that the default is in force where nothing was set', () => {
    expect(limitInWords('suddenGainKg', DEFAULT_POLICY)).toMatch(/In force: 2 kg, the default\. Published: More than 2 kg in 3 days/);
  });

  it('shows shares in per cent', () => {
    expect(limitInWords('sharedSpanShare', policyWith({ sharedSpanShare: 0.6 }))).toContain('60 % (default 50 %)');
  });

  it('shows the table of review intervals by age, the clinic’s own or the default', () => {
    const [first, ...rest] = DEFAULT_POLICY.reviewDays;
    const own = policyWith({ reviewDays: [{ underYears: first?.underYears ?? 2, days: 30 }, ...rest] });
    expect(limitInWords('reviewDays', own)).toMatch(/This clinic’s own: 30 days under 2 years, .*\(default 42 days under 2 years, /);
    expect(limitInWords('reviewDays', DEFAULT_POLICY)).toContain('In force: 42 days under 2 years');
  });

  it('has a source, a kind and no statistician’s letters for every limit', () => {
    for (const name of Object.keys(LIMITS) as LimitName[]) {
      const words = limitInWords(name, DEFAULT_POLICY);
      expect(words, name).toMatch(/(Published|Common practice|Clinic default): \S.{10}/);
      expect(words, name).not.toMatch(/\bS[DE]M?s?\b/);
    }
  });
});

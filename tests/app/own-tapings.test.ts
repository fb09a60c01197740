import { describe, expect, it } from 'vitest';
import { ownTapings } from '@/app/clinic/limits/own-tapings';
import { readPolicyForm } from '@/lib/forms/read-policy-form';
import { policyWith } from '@/lib/limits/policy';
import { calendarDay } from '@/lib/units/calendar-day';

const newest = calendarDay('2026-11-24');

describe('the reading error on the Limits screen', () => {
  it('says how many tapings there are while they are too few, with the default in the box', () => {
    const shown = ownTapings({ from: 'default', pairs: 4, newest, sdMm: undefined });
    expect(shown).toEqual({
      because: '4 of 10 places measured twice in this clinic so far, as of 24 Nov 2026. From 10 on, the clinic’s own figure counts.',
    });
    expect(ownTapings({ from: 'default', pairs: 0, newest: null, sdMm: undefined }).because).toMatch(
      /^0 of 10 places measured twice in this clinic so far\./,
    );
  });

  it('stands in an empty box from ten on, so that a newer figure takes its place by itself', () => {
    const shown = ownTapings({ from: 'tapings', pairs: 34, newest, sdMm: 2.1 });
    expect([shown.now, shown.stands]).toEqual(['', '2.1']);
    expect(shown.because).toContain('from 34 places measured twice in this clinic, as of 24 Nov 2026: 2.1 mm');
  });

  it('a lead’s own figure stays in the box, the tapings beside it', () => {
    const shown = ownTapings({ from: 'lead', pairs: 34, newest, sdMm: 2.1 });
    expect(shown.now).toBeUndefined();
    expect(shown.because).toMatch(/^Typed by a lead; from 34 .*: 2\.1 mm\. Empty the box to use it\.$/);
  });

  it('a figure typed equal to what the tapings give is not kept as a lead’s own; the default typed over them is', () => {
    const unset = policyWith({ readingSdMm: 2.1 });
    expect(readPolicyForm({ readingSdMm: '2.1' }, unset)).toEqual({ kind: 'read', own: {} });
    expect(readPolicyForm({ readingSdMm: '' }, unset)).toEqual({ kind: 'read', own: {} });
    expect(readPolicyForm({ readingSdMm: '3' }, unset)).toEqual({ kind: 'read', own: { readingSdMm: 3 } });
    expect(readPolicyForm({ readingSdMm: '3' })).toEqual({ kind: 'read', own: {} });
  });
});

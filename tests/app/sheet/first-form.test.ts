import { describe, expect, it, vi } from 'vitest';
import { firstForm } from '@/app/_sheet/read-sheet-data';
import type { KeptRecord } from '@/db/patients/records';
import { type ClinicDetails, setUpInWords } from '@/lib/record/clinic-details';
import { calendarDay } from '@/lib/units/calendar-day';
import { readVisitForm } from '@/lib/visit-form/read-visit-form';
import { isSetUp } from '@/lib/visit-form/visit-form';
import { recordOf } from '@/tests/lib/made-up-ladder';

vi.mock('server-only', () => ({}));

const TODAY = calendarDay('2026-11-25');
const clinic: ClinicDetails = {
  name: 'Harbour Lane',
  subtitle: '',
  lengthUnit: 'cm',
  massUnit: 'kg',
  timeZone: 'UTC',
  address: [],
  phone: null,
};
const arm = recordOf([], { affected: [{ limb: 'arm', side: 'left' }] }) as unknown as KeptRecord;
const now = { day: TODAY, time: '10:00', who: 'RA' };

describe('the first form of a patient nobody measured', () => {
  it('asks for zero and interval where the clinic has not said how it measures, and is no visit until they are said', () => {
    const form = firstForm(arm, clinic, now);
    expect([form.sheets[0]?.limb, form.sheets[0]?.zero, form.sheets[0]?.interval, form.posture]).toEqual(['arm', '', '', '']);
    expect(isSetUp(form)).toBe(false);
    expect(setUpInWords(clinic)).toBeNull();
    const read = readVisitForm(form, { born: calendarDay('1980-01-01'), today: TODAY, phases: [] });
    expect(read.kind).toBe('refused');
  });

  it('is set up as the clinic measures that limb; another limb is asked about', () => {
    const setUp = { arm: { zero: 'wrist-crease', direction: 'down', interval: '4' } } as const;
    const form = firstForm(arm, { ...clinic, setUp, posture: 'sitting' }, now);
    expect(form.sheets[0]).toMatchObject({ zero: 'wrist-crease', direction: 'down', interval: '4', unit: 'cm' });
    expect([isSetUp(form), form.posture]).toEqual([true, 'sitting']);
    expect(setUpInWords({ ...clinic, setUp })).toBe('Arm from the wrist crease downward, every 4 cm.');
    const inches = { arm: { zero: 'wrist-crease', direction: 'up', interval: '1 1/2', unit: 'in' } } as const;
    const other = firstForm(arm, { ...clinic, setUp: inches }, now);
    expect([other.sheets[0]?.unit, other.sheets[0]?.interval], 'a limb may be taped in another unit').toEqual(['in', '1 1/2']);
    expect(setUpInWords({ ...clinic, setUp: inches })).toBe('Arm from the wrist crease upward, every 1 1/2 in.');
    const leg = { ...arm, affected: [{ limb: 'leg', side: 'right' }] } as unknown as KeptRecord;
    expect(isSetUp(firstForm(leg, { ...clinic, setUp }, now))).toBe(false);
  });
});

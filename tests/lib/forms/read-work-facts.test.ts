import { describe, expect, it } from 'vitest';
import { readDiaryForm, typedDiary } from '@/lib/forms/read-diary-form';
import { readWorkFacts, typedFacts } from '@/lib/forms/read-work-facts';
import { NO_FACTS } from '@/lib/record/work-facts';
import { calendarDay } from '@/lib/units/calendar-day';
import { FACTS } from '../made-up-noted';

const read = (typed: Readonly<Record<string, string>>) => readWorkFacts(typed, calendarDay('2015-02-17'), calendarDay('2026-11-25'));

describe('the form of facts for the work', () => {
  it('reads back what it shows: all boxes, and none', () => {
    expect(read(typedFacts(FACTS))).toEqual({ kind: 'read', facts: FACTS });
    expect(read(typedFacts())).toEqual({ kind: 'read', facts: NO_FACTS });
    expect(read({})).toEqual({ kind: 'read', facts: NO_FACTS });
    expect(read({ burntPct: '12,5 %' })).toMatchObject({ facts: { burntPct: 12.5 } });
  });

  it.each([
    [{ burntPct: '120 %' }, 'burntPct'],
    [{ burntPct: '-1' }, 'burntPct'],
    [{ burntPct: 'half' }, 'burntPct'],
    [{ referralDay: '2026-10-01', referralUntil: '2026-09-30' }, 'referralUntil'],
    [{ injured: '2026-10-01', healed: '2026-09-30' }, 'healed'],
    [{ injured: '2026-10-01', grafted2: '2026-09-30' }, 'grafted2'],
    [{ injured: '2027-01-01' }, 'injured'],
    [{ contactPhone1: '555-0100' }, 'contactName1'],
    [{ consentTo0: 'photographs' }, 'consentDay0'],
    [{ consentDay2: '2026-10-01' }, 'consentTo2'],
    [{ consentTo1: 'photographs', consentDay1: '2027-10-01' }, 'consentDay1'],
    [{ dominantHand: 'third' }, 'dominantHand'],
    [{ prescriber: 'x'.repeat(121) }, 'prescriber'],
    [{ healed: '29/02/2024' }, 'healed'],
  ])('refuses at the box: %#', (typed, box) => {
    const found = read(typed as unknown as Record<string, string>);
    expect(found.kind === 'refused' && Object.keys(found.errors)).toEqual([box]);
  });
});

describe('the form of working days', () => {
  const week = { weekday1: 'yes', weekday5: 'yes' };
  const closed = { from0: '2026-12-24', until0: '2027-01-01', why0: 'holidays' };

  it('reads back what it shows; an end left empty is the first day', () => {
    const found = readDiaryForm({ ...week, ...closed, from4: '2026-12-01', why4: 'moving', capacity: '12' });
    expect(found).toMatchObject({
      diary: { weekdays: [1, 5], capacity: 12, closed: [{ from: '2026-12-01', until: '2026-12-01' }, { why: 'holidays' }] },
    });
    expect(found.kind === 'read' && readDiaryForm(typedDiary(found.diary))).toEqual(found);
  });

  it.each([
    [closed, 'weekdays'],
    [{ ...week, from0: '2026-12-24', until0: '2026-12-23', why0: 'x' }, 'until0'],
    [{ ...week, from0: '2026-12-24', until0: '2027-12-23', why0: 'x' }, 'until0'],
    [{ ...week, until0: '2026-12-24', why0: 'x' }, 'from0'],
    [{ ...week, from0: '2026-12-24' }, 'why0'],
    [{ ...week, ...closed, from1: '2026-12-31', why1: 'y' }, 'from1'],
    [{ ...week, capacity: '0' }, 'capacity'],
    [{ ...week, capacity: 'many' }, 'capacity'],
  ])('refuses at the box: %#', (typed, box) => {
    const found = readDiaryForm(typed as unknown as Record<string, string>);
    expect(found.kind === 'refused' && Object.keys(found.errors)).toEqual([box]);
  });
});

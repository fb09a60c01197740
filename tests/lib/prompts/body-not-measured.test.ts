import { describe, expect, it } from 'vitest';
import { calendarDay } from '@/lib/units/calendar-day';
import { recordOf, visitOf } from '../made-up-ladder';
import { legOf, promptsOf } from './made-up-piece';

const CHILD = { born: calendarDay('2016-05-01') };
const ADULT = { born: calendarDay('1980-05-01') };

// How near a figure must lie: engine section 5, clinic default of 30 days for a child.
describe('a body that was not measured', () => {
  const asked = (who: typeof CHILD, ...visits: ReturnType<typeof visitOf>[]) =>
    promptsOf('body-not-measured', recordOf(visits, who), '2026-03-01');

  it('asks for what is missing near a child’s newest ladder, and says which day that was', () => {
    const [prompt] = asked(CHILD, visitOf('2026-02-20', [legOf()], { weight: '30 kg' }));
    expect([prompt?.action, prompt?.title, prompt?.missing]).toEqual(['visit', 'Consider measuring height at the next visit.', ['height']]);
    expect(prompt?.facts).toEqual(['Measured on 20 Feb 2026; no height within 30 days of it.']);
    expect(asked(CHILD, visitOf('2026-02-20', [legOf()]))[0]?.missing).toEqual(['height', 'weight']);
  });

  it('is silent when both stand within 30 days, and returns on the 31st', () => {
    const measured = visitOf('2026-01-10', [], { height: '130 cm', weight: '30 kg' });
    expect(asked(CHILD, measured, visitOf('2026-02-09', [legOf()]))).toEqual([]);
    expect(asked(CHILD, measured, visitOf('2026-02-10', [legOf()]))).toHaveLength(1);
  });

  it('is silent for a grown person, and where nothing was taped', () => {
    expect(asked(ADULT, visitOf('2026-02-20', [legOf()]))).toEqual([]);
    expect(asked(CHILD, visitOf('2026-02-20', []))).toEqual([]);
  });

  it('has other inputs when a newer ladder has the same gap, so that a declined one returns', () => {
    const first = asked(CHILD, visitOf('2026-01-05', [legOf()]));
    const second = asked(CHILD, visitOf('2026-01-05', [legOf()]), visitOf('2026-02-20', [legOf()]));
    expect(second[0]?.inputs).not.toBe(first[0]?.inputs);
  });
});

import { describe, expect, it } from 'vitest';
import { lineView } from '@/app/_today/line-view';
import type { WorkRow } from '@/db/worklist/work-lines';
import { calendarDay } from '@/lib/units/calendar-day';

const TODAY = calendarDay('2026-12-01');
const VIEW = { kind: 'all', mine: false, q: '', places: {}, answer: null } as const;

function behindOf(due: string, behind: number, overdue: number, soonest = due): string | undefined {
  const row: WorkRow = {
    id: 'line',
    clinicId: 'clinic',
    patientId: 'patient',
    key: 'visit-after:2026-10-01',
    kind: 'visit',
    due: calendarDay(due),
    soonest: calendarDay(soonest),
    title: 'Book the visit',
    reason: 'Last visit 1 Oct 2026.',
    limb: null,
    prompt: null,
    first: true,
    behind,
    outline: null,
    reference: 'R-1',
    name: null,
    born: calendarDay('1980-01-01'),
    renewedFor: TODAY,
  };
  return lineView(row, overdue, TODAY, VIEW, false).behind;
}

describe('what stands behind the line of a patient', () => {
  it.each([
    ['nothing', '2026-11-26', 0, 1, undefined, undefined],
    ['none of it late', '2026-11-26', 4, 1, undefined, '4 more for this patient.'],
    ['one of them late', '2026-11-26', 4, 2, undefined, '4 more for this patient, 1 of them overdue.'],
    ['all of them late', '2026-11-26', 2, 3, undefined, '2 more for this patient, all of them overdue.'],
    ['one, late', '2026-11-26', 1, 2, undefined, '1 more for this patient, overdue.'],
    ['late before what is of today', '2026-12-01', 4, 2, '2026-11-10', '4 more for this patient, 2 of them overdue, since Tue 10 Nov.'],
    ['sooner, and not late', '2026-12-08', 2, 0, '2026-12-03', '2 more for this patient.'],
  ] as const)('%s', (_name, due, behind, overdue, soonest, words) => {
    expect(behindOf(due, behind, overdue, soonest)).toBe(words);
  });
});

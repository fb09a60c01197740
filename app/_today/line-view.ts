import type { WorkRow } from '@/db/worklist/work-lines';
import type { Side } from '@/lib/ladder/limb';
import { limbOf } from '@/lib/record/patient-record';
import type { RowOutline } from '@/lib/schedule/patient-work';
import { FIRST_LADDER, type WorkKind } from '@/lib/schedule/worklist';
import { ageInYears } from '@/lib/units/age';
import { type CalendarDay, daysBetween, showDayOfYear, showShortWeekday } from '@/lib/units/calendar-day';
import { type GlyphPaths, rowGlyph } from './row-glyph';
import { addressOf, type TodayView } from './today-address';

/** One line of the worklist in words, as it is shown: small enough to be sent to the browser once, not as a tree of elements. */
export type LineView = {
  readonly id: string;
  readonly day: string;
  /** `9 days over`; absent from today on. */
  readonly over?: string;
  readonly side?: Side;
  readonly glyph?: GlyphPaths;
  readonly patientId: string;
  readonly who: string;
  readonly about: string;
  readonly kind: WorkKind;
  readonly title: string;
  readonly reason: string;
  readonly behind?: string;
  /** Word and address of what can be done about it, here or (`stays` absent) on the ladder sheet; absent for whoever only reads. */
  readonly answer?: { readonly word: string; readonly href: string; readonly stays?: true };
};

/** A stored line in words, on a day; `overdue` is how many lines of its patient are. */
export function lineView(row: WorkRow, overdue: number, today: CalendarDay, view: TodayView, mayWrite: boolean): LineView {
  const outline = row.outline as RowOutline | null;
  const side = (row.limb && limbOf(row.limb)?.side) ?? outline?.side;
  const glyph = outline ? rowGlyph(outline) : undefined;
  const behind = behindWords(row, overdue, today);
  const isOpen = view.answer === row.id;
  return {
    id: row.id,
    day: row.due === today ? 'Today' : showShortWeekday(row.due),
    ...(row.due < today ? { over: overWords(daysBetween(row.due, today)) } : {}),
    ...(side ? { side } : {}),
    ...(glyph ? { glyph } : {}),
    patientId: row.patientId,
    who: row.name ?? row.reference,
    about: `${row.name ? `${row.reference} · ` : ''}${ageInYears(row.born, today)} y`,
    kind: row.kind,
    title: row.title,
    reason: row.reason,
    ...(behind ? { behind } : {}),
    ...(mayWrite
      ? {
          answer:
            row.key === FIRST_LADDER
              ? { word: 'Measure', href: `/patients/${row.patientId}/visits/new` }
              : { word: isOpen ? 'Close' : 'Answer', href: addressOf({ ...view, answer: isOpen ? null : row.id }), stays: true },
        }
      : {}),
  };
}

function overWords(days: number): string {
  return days === 1 ? '1 day over' : `${days} days over`;
}

/** What else stands behind a first line with how much of it is overdue, and that the line is of another day where it was not looked at for today yet. */
function behindWords({ due, soonest, behind, renewedFor }: WorkRow, overdue: number, today: CalendarDay): string {
  const said: string[] = [];
  if (behind > 0)
    said.push(`${behind} more for this patient${lateWords(overdue - (due < today ? 1 : 0), behind, soonest < due ? soonest : null)}.`);
  if (renewedFor === null) said.push('Changed since; being looked at again.');
  else if (renewedFor !== today) said.push(`As of ${showDayOfYear(renewedFor)}; being looked at for today.`);
  return said.join(' ');
}

/** `, 2 of them overdue, since Tue 10 Nov`; the day where it is before that of the first line. */
function lateWords(late: number, behind: number, since: CalendarDay | null): string {
  if (late <= 0) return '';
  const which = behind === 1 ? 'overdue' : late === behind ? 'all of them overdue' : `${late} of them overdue`;
  return `, ${which}${since ? `, since ${showShortWeekday(since)}` : ''}`;
}

import Link from 'next/link';
import type { ReactNode } from 'react';
import { LimbGlyph } from '@/app/_picture/limb-glyph';
import type { WorkRow } from '@/db/work-lines';
import type { RowOutline } from '@/lib/schedule/patient-work';
import { FIRST_LADDER } from '@/lib/schedule/worklist';
import { ageInYears } from '@/lib/units/age';
import { type CalendarDay, daysBetween, showDayOfYear, showShortWeekday } from '@/lib/units/calendar-day';
import { addressOf, type TodayView } from './today-address';
import { WorkIcon } from './work-mark';

type Props = {
  readonly row: WorkRow;
  readonly today: CalendarDay;
  readonly view: TodayView;
  readonly mayWrite: boolean;
  /** The answer form, when it is this line's. */
  readonly children: ReactNode;
};

/** One line of the worklist, and under it its answer form when that is open. */
export function WorkLine({ row, today, view, mayWrite, children }: Props) {
  const outline = row.outline as RowOutline | null;
  const who = row.name ?? row.reference;
  const side = row.limb?.side ?? outline?.side;
  const isOpen = view.answer === row.id;
  return (
    <>
      <tr className="work-row">
        <td className="work-day">
          <strong>{row.due === today ? 'Today' : showShortWeekday(row.due)}</strong>
          {row.due < today && <span className="under over">{overWords(daysBetween(row.due, today))}</span>}
        </td>
        <td className="work-limb">
          {outline && <LimbGlyph side={outline.side} heightsMm={outline.heightsMm} girthsMm={outline.girthsMm} heightPx={30} widen={1.6} />}
          {side && <span className={`side-word ${side}`}>{side}</span>}
        </td>
        <th scope="row" className="work-who">
          <Link className="quiet-link" href={`/patients/${row.patientId}`} prefetch={false}>
            {who}
          </Link>
          <span className="under">{`${row.name ? `${row.reference} · ` : ''}${ageInYears(row.born, today)} y`}</span>
        </th>
        <td className={row.kind === 'refer' ? 'work-what refer' : 'work-what'}>
          <WorkIcon kind={row.kind} /> <strong>{row.title}</strong>
        </td>
        <td className="work-why">
          {row.reason}
          <span className="under">{behindWords(row, today)}</span>
        </td>
        <td className="work-do">
          {mayWrite && row.key !== FIRST_LADDER && (
            <Link
              href={addressOf({ ...view, answer: isOpen ? null : row.id })}
              scroll={false}
              prefetch={false}
              aria-label={`${isOpen ? 'Close' : row.prompt ? 'Answer' : 'Move'}: ${row.title}, ${who}`}
            >
              {isOpen ? 'Close' : row.prompt ? 'Answer' : 'Move'}
            </Link>
          )}
        </td>
      </tr>
      {isOpen && (
        <tr className="answer-row">
          <td className="whole-row" colSpan={6}>
            {children}
          </td>
        </tr>
      )}
    </>
  );
}

function overWords(days: number): string {
  return days === 1 ? '1 day over' : `${days} days over`;
}

/** What else stands behind a first line, and that the line is of another day where it was not looked at for today yet. */
function behindWords({ behind, renewedFor }: WorkRow, today: CalendarDay): string {
  const said: string[] = [];
  if (behind > 0) said.push(behind === 1 ? 'and 1 more for this patient' : `and ${behind} more for this patient`);
  if (renewedFor === null) said.push('changed since; being looked at again');
  else if (renewedFor !== today) said.push(`as of ${showDayOfYear(renewedFor)}; being looked at for today`);
  return said.join('; ');
}

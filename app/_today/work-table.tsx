import Link from 'next/link';
import { LimbGlyph } from '@/app/_picture/limb-glyph';
import { groupOf, type WorkGroup } from '@/lib/schedule/worklist';
import { ageInYears } from '@/lib/units/age';
import { type CalendarDay, daysBetween, showShortWeekday } from '@/lib/units/calendar-day';
import type { ClinicWork } from './clinic-work';
import { WorkIcon } from './work-mark';

const HEADS: Readonly<Record<WorkGroup, string>> = { overdue: 'Overdue', 'this-week': 'This week', later: 'Later' };

/** One group of the worklist: a line each, the day first, then whom, what and why. */
export function WorkTable({
  group,
  work,
  today,
  most,
}: {
  group: WorkGroup;
  work: readonly ClinicWork[];
  today: CalendarDay;
  most: number;
}) {
  const own = work.filter((one) => groupOf(one.item.due, today) === group);
  if (own.length === 0) return null;
  const shown = own.slice(0, most);
  return (
    <section aria-labelledby={`work-${group}`}>
      <h2 id={`work-${group}`} className={`section-head work-head ${group}`}>
        {HEADS[group]} <span className="head-note">{shown.length < own.length ? `${shown.length} of ${own.length}` : own.length}</span>
      </h2>
      <table className="worklist work-table">
        <colgroup>
          <col className="col-day" />
          <col className="col-limb" />
          <col className="col-who" />
          <col className="col-what" />
          <col />
        </colgroup>
        <thead className="visually-hidden">
          <tr>
            <th scope="col">Due</th>
            <th scope="col">Limb</th>
            <th scope="col">Patient</th>
            <th scope="col">What</th>
            <th scope="col">Why</th>
          </tr>
        </thead>
        <tbody>
          {shown.map(({ patient, item, outline, behind }) => (
            <tr key={`${patient.patientId} ${item.title} ${item.due}`} className="work-row">
              <td className="work-day">
                <strong>{item.due === today ? 'Today' : showShortWeekday(item.due)}</strong>
                {item.due < today && <span className="under over">{overWords(daysBetween(item.due, today))}</span>}
              </td>
              <td className="work-limb">
                {outline && (
                  <LimbGlyph side={outline.side} heightsMm={outline.heightsMm} girthsMm={outline.girthsMm} heightPx={30} widen={1.6} />
                )}
                {outline && <span className={`side-word ${outline.side}`}>{outline.side}</span>}
              </td>
              <th scope="row" className="work-who">
                <Link className="quiet-link" href={`/patients/${patient.patientId}`} prefetch={false}>
                  {patient.name ?? patient.reference}
                </Link>
                <span className="under">{`${patient.name ? `${patient.reference} · ` : ''}${ageInYears(patient.born, today)} y`}</span>
              </th>
              <td className={item.kind === 'refer' ? 'work-what refer' : 'work-what'}>
                <WorkIcon kind={item.kind} /> <strong>{item.title}</strong>
              </td>
              <td className="work-why">
                {item.reason}
                {behind > 0 && (
                  <span className="under">{behind === 1 ? 'and 1 more for this patient' : `and ${behind} more for this patient`}</span>
                )}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

function overWords(days: number): string {
  return days === 1 ? '1 day over' : `${days} days over`;
}

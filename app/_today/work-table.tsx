import type { ReactNode } from 'react';
import { dayInList } from '@/db/worklist/work-lines';
import type { CalendarDay } from '@/lib/units/calendar-day';
import { lineView } from './line-view';
import { GROUP_HEADS, type ShownGroup } from './load-today';
import styles from './today.module.css';
import { addressOf, type TodayView } from './today-address';
import { WorkLines } from './work-lines';

type Props = {
  readonly shown: ShownGroup;
  /** Of each patient how many lines are overdue. */
  readonly overdueOf: ReadonlyMap<string, number>;
  readonly today: CalendarDay;
  readonly view: TodayView;
  /** What stands in the place of lines when there are none. */
  readonly nothing: string;
  /** The form under the line that is being answered. */
  readonly answer: ReactNode;
  readonly mayWrite: boolean;
};

/** One group of the worklist: a line each, the day first, then whom, what and why; a page of it, and the way to the next. */
export function WorkTable({ shown: { group, rows, total, more }, overdueOf, today, view, nothing, answer, mayWrite }: Props) {
  const last = rows.at(-1);
  const next =
    more && last
      ? { ...view, answer: null, places: { ...view.places, [group]: { due: dayInList(last, view.kind), id: last.id } } }
      : undefined;
  const { [group]: here, ...others } = view.places;
  return (
    <section aria-labelledby={`work-${group}`}>
      <h2 id={`work-${group}`} className={`section-head ${styles.workHead}`} data-group={total > 0 ? group : undefined}>
        {GROUP_HEADS[group]} <span className="head-note">{rows.length < total ? `${rows.length} of ${total}` : total}</span>
      </h2>
      {rows.length === 0 && <p className="nothing-listed secondary">{nothing}</p>}
      {rows.length > 0 && (
        <table className={`worklist ${styles.workTable}`}>
          <colgroup>
            <col className={styles.colDay} />
            <col className={styles.colLimb} />
            <col className={styles.colWho} />
            <col className={styles.colWhat} />
            <col />
            <col className={styles.colDo} />
          </colgroup>
          <thead className="visually-hidden">
            <tr>
              <th scope="col">Due</th>
              <th scope="col">Limb</th>
              <th scope="col">Patient</th>
              <th scope="col">What</th>
              <th scope="col">Why</th>
              <th scope="col">Answer</th>
            </tr>
          </thead>
          <tbody>
            <WorkLines
              lines={rows.map((row) => lineView(row, overdueOf.get(row.patientId) ?? 0, today, view, mayWrite))}
              open={view.answer}
              answer={answer}
            />
          </tbody>
        </table>
      )}
      {(next || here) && (
        <p className="pages">
          {here && (
            <a href={addressOf({ ...view, answer: null, places: others })} data-soft="stay">
              {`${GROUP_HEADS[group]}: from the start`}
            </a>
          )}
          {next && (
            <a href={addressOf(next)} data-soft="stay">
              {`${GROUP_HEADS[group]}: show the next`}
            </a>
          )}
        </p>
      )}
    </section>
  );
}

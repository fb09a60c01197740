import clsx from 'clsx';
import { todayIn } from '@/app/_auth/today';
import type { Policy } from '@/lib/limits/policy';
import { dateInWords, sourceInWords } from '@/lib/schedule/date-in-words';
import { OF_BOOKINGS, OF_REPLIES, type ScheduledDate } from '@/lib/schedule/scheduled-date';
import { type CalendarDay, daysBetween, showDay, showShortWeekday } from '@/lib/units/calendar-day';
import { capitalized } from '@/lib/units/capitalized';
import { withoutFullStop } from '@/lib/units/without-full-stop';
import { MoveDate } from './move-date';
import patientStyles from './patient.module.css';
import promptStyles from './prompt.module.css';
import scheduleStyles from './schedule.module.css';

/** So many dates are shown at once; the later ones open below them. */
const SHOWN = 6;

type Props = {
  readonly dates: readonly ScheduledDate[];
  /** Why a date that has come is no line of Today, by its key. */
  readonly rests: Readonly<Record<string, string>>;
  readonly patientId: string;
  readonly today: CalendarDay;
  readonly mayWrite: boolean;
  readonly policy: Policy;
  /** The clinic's, for days of moments. */
  readonly timeZone: string;
};

/** Every date of a patient's schedule: when, for what, computed or moved by hand, and why. */
export function SchedulePanel({ dates, rests, patientId, today, mayWrite, policy, timeZone }: Props) {
  const row = { rests, patientId, today, mayWrite, timeZone };
  const sources = [...new Set(dates.flatMap((date) => date.sources))];
  return (
    <section className="panel" aria-labelledby="schedule-head">
      <div className="panel-head">
        <h2 id="schedule-head">Dates</h2>
        <span className={patientStyles.panelLinks}>
          <a href={`/patients/${patientId}/bookings`} data-soft="">
            Bookings
          </a>
          <a href={`/patients/${patientId}/prompts`} data-soft="">
            Proposed and answered
          </a>
        </span>
      </div>
      {dates.length === 0 ? (
        <p className="secondary">No dates yet. They follow from visits and pieces.</p>
      ) : (
        <>
          <DateList dates={dates.slice(0, SHOWN)} {...row} />
          {dates.length > SHOWN && (
            <details className="as-table">
              <summary>{`${dates.length - SHOWN} later ${dates.length - SHOWN === 1 ? 'date' : 'dates'}`}</summary>
              <DateList dates={dates.slice(SHOWN)} {...row} />
            </details>
          )}
        </>
      )}
      {sources.length > 0 && (
        <details className={promptStyles.ruleSource}>
          <summary>Where these intervals come from</summary>
          <ul>
            {sources.map((source) => (
              <li key={source}>{sourceInWords(source, policy)}</li>
            ))}
          </ul>
        </details>
      )}
    </section>
  );
}

type ListProps = Omit<Props, 'policy'>;

function DateList({ dates, rests, patientId, today, mayWrite, timeZone }: ListProps) {
  return (
    <ul className={scheduleStyles.scheduleList}>
      {dates.map((date) => (
        <li key={date.key}>
          <span>
            <strong>{date.day === today ? 'Today' : showShortWeekday(date.day)}</strong>
            <span className={clsx('second-line', date.day < today && 'over')}>{awayInWords(date.day, today)}</span>
          </span>
          <span className={scheduleStyles.scheduleWhat}>
            <strong>{dateInWords(date)}</strong>
            <span className="second-line">{`${capitalized(date.why)}.`}</span>
            {rests[date.key] && <span className="second-line">{rests[date.key]}</span>}
            {date.moved && (
              <span className="second-line">{`Moved by hand from ${showDay(date.computed)}: ${withoutFullStop(date.moved.reason)}. ${signature(date.moved, timeZone)}`}</span>
            )}
            {date.fellAway && (
              <span className="second-line">
                {`It was moved to ${showDay(date.fellAway.day)} (${date.fellAway.reason}) from ${showDay(date.fellAway.computed)}; new data gave another day, so that no longer holds.`}
              </span>
            )}
          </span>
          {mayWrite && OF_BOOKINGS.includes(date.kind) && (
            <a href={`/patients/${patientId}/bookings`} aria-label={`Change: ${dateInWords(date)}`} data-soft="">
              Change
            </a>
          )}
          {mayWrite && OF_REPLIES.includes(date.kind) && (
            <a href={`/patients/${patientId}/replies`} aria-label={`Answer: ${dateInWords(date)}`} data-soft="">
              Answer
            </a>
          )}
          {mayWrite && ![...OF_BOOKINGS, ...OF_REPLIES].includes(date.kind) && (
            <details className={scheduleStyles.scheduleMove}>
              <summary aria-label={`Move: ${dateInWords(date)}`}>Move</summary>
              <MoveDate
                patientId={patientId}
                dateKey={date.key}
                computed={date.computed}
                day={date.day < today ? today : date.day}
                today={today}
                back={`/patients/${patientId}`}
              />
            </details>
          )}
        </li>
      ))}
    </ul>
  );
}

function awayInWords(day: CalendarDay, today: CalendarDay): string {
  const days = daysBetween(today, day);
  if (days === 0) return showDay(day);
  const away = Math.abs(days) === 1 ? '1 day' : `${Math.abs(days)} days`;
  return days < 0 ? `${away} over` : `in ${away}`;
}

function signature({ byName, at }: NonNullable<ScheduledDate['moved']>, timeZone: string): string {
  return `${byName ?? 'Someone'}, ${showDay(todayIn(timeZone, at))}.`;
}

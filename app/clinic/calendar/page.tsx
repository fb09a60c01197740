import type { Metadata } from 'next';
import { appAddress } from '@/app/_auth/app-address';
import { requireTherapist } from '@/app/_auth/therapist';
import { ColumnHeads } from '@/app/_shell/column-heads';
import { dayAndTime } from '@/app/_shell/day-and-time';
import { clinicOf } from '@/db/clinic/clinic';
import { alarmDaysOf } from '@/db/documents/calendar-alarm';
import { feedsOf, type KeptFeed } from '@/db/documents/calendar-feeds';
import { setAlarmAction, withdrawFeedAction } from './actions';
import { OpenFeed } from './open-feed';

export const metadata: Metadata = { title: 'Calendar' };

/** The clinic's dates as a file, and addresses a calendar program may read: none until a lead opens one. */
export default async function CalendarPage() {
  const therapist = await requireTherapist('/clinic/calendar');
  const [clinic, feeds] = [await clinicOf(therapist), await feedsOf(therapist)];
  const alarm = await alarmDaysOf(therapist);
  const clock = dayAndTime(clinic.timeZone);
  const lead = therapist.role === 'lead';
  return (
    <main id="main">
      <div className="title-row">
        <div>
          <h1>Calendar</h1>
          <p className="secondary">Dates of every patient as whole days: kind and reference, no name and no diagnosis.</p>
        </div>
        <div className="actions">
          <a className="button" href="/clinic/calendar/file">
            Download the file
          </a>
          <a className="button" href="/clinic" data-soft="">
            Back to the clinic
          </a>
        </div>
      </div>
      <h2 className="section-head">Reminders</h2>
      {lead && (
        <form className="form" action={setAlarmAction}>
          <div className="field">
            <label htmlFor="days">Calendar programs remind of a date</label>
            <select id="days" name="days" key={alarm} defaultValue={alarm ?? ''}>
              <option value="">not at all</option>
              {ALARM_CHOICES.map((days) => (
                <option key={days} value={days}>
                  {alarmInWords(days)}
                </option>
              ))}
            </select>
          </div>
          <div className="actions">
            <button type="submit" className="button">
              Save
            </button>
          </div>
        </form>
      )}
      <p className="secondary" role="status">
        Set now: calendar programs remind of a date {alarm === null ? 'not at all' : alarmInWords(alarm)}.
      </p>
      <h2 className="section-head">Addresses for calendar programs</h2>
      <p className="secondary">
        {lead
          ? 'A calendar program reads an address without signing in. None is open until you open one, and you can withdraw it at any time.'
          : 'Only a lead opens or withdraws an address.'}
      </p>
      {lead && <OpenFeed address={await appAddress()} />}
      {feeds.length > 0 && (
        <table className="worklist">
          <thead>
            <tr>
              <ColumnHeads of={['Opened', 'By', 'Last read', 'State']} />
            </tr>
          </thead>
          <tbody>
            {feeds.map((feed) => (
              <tr key={feed.feedId}>
                <th scope="row">{clock.format(feed.at)}</th>
                <td>{feed.byName ?? 'someone no longer here'}</td>
                <td data-word="read">{feed.lastReadAt ? clock.format(feed.lastReadAt) : 'never'}</td>
                <td className="whole-row">{stateOf(feed, lead, clock)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </main>
  );
}

/** Days before that can be chosen. */
const ALARM_CHOICES = [1, 2, 3, 7, 14, 28];

function alarmInWords(days: number): string {
  return days === 1 ? 'the day before, at nine' : `${days} days before, at nine`;
}

function stateOf(feed: KeptFeed, lead: boolean, clock: Intl.DateTimeFormat) {
  if (feed.withdrawnAt) return `withdrawn ${clock.format(feed.withdrawnAt)}`;
  if (!lead) return 'open';
  return (
    <form action={withdrawFeedAction}>
      <input type="hidden" name="feedId" value={feed.feedId} />
      <button className="button" type="submit">
        Withdraw
      </button>
    </form>
  );
}

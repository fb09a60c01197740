import type { Metadata } from 'next';
import { requireTherapist } from '@/app/_auth/therapist';
import { todayIn } from '@/app/_auth/today';
import styles from '@/app/_diary/diary.module.css';
import { ColumnHeads } from '@/app/_shell/column-heads';
import { PrintButton } from '@/app/_shell/print-button';
import { BehindLine } from '@/app/_today/behind-line';
import { freshWork } from '@/app/_today/fresh-work';
import { clinicOf } from '@/db/clinic/clinic';
import { diaryOf } from '@/db/clinic/diary';
import { type DiaryVisit, diaryVisits } from '@/db/worklist/diary-visits';
import { closedOn, type Diary } from '@/lib/diary/diary';
import { addDays, type CalendarDay, mondayOf, readDay, showDayOfYear, showWeekday } from '@/lib/units/calendar-day';

export const metadata: Metadata = { title: 'Diary' };

/** Days on one page, and visits read for them at most. */
const DAYS = 14;
const MOST = 500;

/** The visits of two weeks, day by day: booked ones with their hour, and those that are due and not booked; closed days with the reason. */
export default async function DiaryPage({ searchParams }: { searchParams: Promise<{ from?: string }> }) {
  const { from: asked = '' } = await searchParams;
  const therapist = await requireTherapist('/diary');
  const [{ timeZone }, diary] = await Promise.all([clinicOf(therapist), diaryOf(therapist)]);
  const today = todayIn(timeZone);
  const { behind, patients } = await freshWork(therapist, today);
  const read = readDay(asked);
  const from = mondayOf(read.kind === 'read' ? read.value : today);
  const visits = await diaryVisits(therapist, from, addDays(from, DAYS), MOST);
  const days = Array.from({ length: DAYS }, (_, day) => addDays(from, day));
  const shown = days.filter((day) => !closedOn(diary, day) || visits.some((visit) => visit.day === day) || isClosedSpan(diary, day));
  const mayWrite = therapist.role !== 'read-only';
  return (
    <main id="main">
      <div className="title-row">
        <div>
          <h1>Diary</h1>
          <p className="secondary">{`${showDayOfYear(from)} to ${showDayOfYear(addDays(from, DAYS - 1))}: ${inAll(visits)}`}</p>
          {behind > 0 && <BehindLine behind={behind} patients={patients} />}
        </div>
        <div className="actions">
          <a className="button" href={`/diary?from=${addDays(from, -DAYS)}`} data-soft="">
            Two weeks earlier
          </a>
          <a className="button" href="/diary" data-soft="">
            This week
          </a>
          <a className="button" href={`/diary?from=${addDays(from, DAYS)}`} data-soft="">
            Two weeks later
          </a>
          <PrintButton words="Print" />
        </div>
      </div>
      {visits.length === MOST && (
        <p className="secondary">{`The first ${MOST} visits are shown; look at fewer days through each patient’s bookings.`}</p>
      )}
      <table className="worklist">
        <thead>
          <tr>
            <ColumnHeads of={['Time', 'Patient', 'What for', 'State']} />
            {mayWrite && (
              <th scope="col" className="no-print">
                Change
              </th>
            )}
          </tr>
        </thead>
        {shown.map((day) => (
          <tbody key={day} className={styles.day} data-today={day === today ? '' : undefined}>
            <tr>
              <th scope="rowgroup" colSpan={mayWrite ? 5 : 4}>
                {`${day === today ? 'Today, ' : ''}${showWeekday(day)}`} <span className="head-note">{ofDay(diary, day, visits)}</span>
              </th>
            </tr>
            {visits
              .filter((visit) => visit.day === day)
              .map((visit) => (
                <VisitRow key={visit.id} visit={visit} today={today} mayWrite={mayWrite} />
              ))}
          </tbody>
        ))}
      </table>
      <p className="protocol-line">
        A visit that is due stands on the day the clinic’s interval gives. Follow local protocol and the prescriber.
      </p>
    </main>
  );
}

const STATE: Readonly<Record<DiaryVisit['kind'], string>> = { booking: 'booked', 'not-said': 'was it kept?', visit: 'due, not booked' };

function VisitRow({ visit, today, mayWrite }: { visit: DiaryVisit; today: CalendarDay; mayWrite: boolean }) {
  const { patientId, name, reference, kind, kept, day, time, why } = visit;
  const who = name ?? reference;
  const words = kept ? 'measured' : STATE[kind];
  return (
    <tr>
      <td>{kind === 'booking' ? (time ?? 'some time') : <span className="secondary">–</span>}</td>
      <th scope="row">
        <a className="quiet-link" href={`/patients/${patientId}`} data-soft="">
          {who}
        </a>
        {name && <span className="second-line">{reference}</span>}
      </th>
      <td className="whole-row">{why ?? ''}</td>
      <td className={kind === 'not-said' || (kind === 'visit' && day < today) ? 'over' : undefined}>{words}</td>
      {mayWrite && (
        <td className="no-print">
          {!kept && (
            <a
              href={`/patients/${patientId}/bookings#form`}
              data-soft=""
              aria-label={`${kind === 'visit' ? 'Book' : 'Change'}: ${who}, ${showDayOfYear(day)}`}
            >
              {kind === 'visit' ? 'Book' : 'Change'}
            </a>
          )}
        </td>
      )}
    </tr>
  );
}

function isClosedSpan({ closed }: Diary, day: CalendarDay): boolean {
  return closed.some(({ from, until }) => from <= day && day <= until);
}

function ofDay(diary: Diary, day: CalendarDay, visits: readonly DiaryVisit[]): string {
  const booked = visits.filter((visit) => visit.day === day && visit.kind !== 'visit').length;
  const closed = closedOn(diary, day);
  const usual = diary.capacity === null || closed ? '' : ` of ${diary.capacity} usual`;
  const count = booked === 0 ? 'nothing booked' : `${booked}${usual} booked`;
  return closed ? `${closed}${booked > 0 ? ` ${booked} booked.` : ''}` : count;
}

function inAll(visits: readonly DiaryVisit[]): string {
  const booked = visits.filter(({ kind }) => kind !== 'visit').length;
  const due = visits.length - booked;
  return `${booked} ${booked === 1 ? 'visit' : 'visits'} booked, ${due} due and not booked.`;
}

import type { Metadata } from 'next';
import { requireTherapist } from '@/app/_auth/therapist';
import { todayIn } from '@/app/_auth/today';
import styles from '@/app/_today/today.module.css';
import { clinicOf } from '@/db/clinic/clinic';
import { clinicDetailsOf } from '@/db/clinic/clinic-details';
import { setUpInWords } from '@/lib/record/clinic-details';
import type { WorkGroup } from '@/lib/schedule/worklist';
import { showShortWeekday, showWeekday } from '@/lib/units/calendar-day';
import { PrintButton } from './_shell/print-button';
import { AnswerForm } from './_today/answer-form';
import { BehindLine } from './_today/behind-line';
import { FirstStart } from './_today/first-start';
import { loadToday, type Today } from './_today/load-today';
import { addressOf, FILTERS, readView, type TodayView } from './_today/today-address';
import { WeeksStrip } from './_today/weeks-strip';
import { MarkShapes } from './_today/work-mark';
import { WorkTable } from './_today/work-table';

export const metadata: Metadata = { title: 'Today' };

/** The first screen: who needs what, by when and why, in one line each. Filters, search and places in the list stand in the address. */
export default async function TodayPage({ searchParams }: { searchParams: Promise<Record<string, string | string[] | undefined>> }) {
  const view = readView(await searchParams);
  const therapist = await requireTherapist(addressOf(view));
  const today = todayIn((await clinicOf(therapist)).timeZone);
  const shown = await loadToday(therapist, view, today);
  const mayWrite = therapist.role !== 'read-only';
  const answered = mayWrite ? shown.groups.flatMap(({ rows }) => rows).find((row) => row.id === view.answer) : undefined;
  const answer = answered && <AnswerForm therapist={therapist} row={answered} back={addressOf({ ...view, answer: null })} />;
  return (
    <main id="main">
      <div className="title-row">
        <div>
          <h1>{showWeekday(today)}</h1>
          {shown.patients > 0 && <p className="secondary">{summary(shown)}</p>}
          {shown.behind > 0 && <BehindLine behind={shown.behind} patients={shown.patients} />}
        </div>
        {mayWrite && shown.patients > 0 && (
          <div className="actions">
            <a className="button" href="/clinic/calendar/file">
              Calendar file
            </a>
            <PrintButton words="Print the list" />
            <a className="button" href="/patients/new" data-soft="">
              New patient
            </a>
            <a className="button main" href="/patients" data-soft="">
              New visit
            </a>
          </div>
        )}
      </div>
      {shown.patients === 0 ? (
        <FirstStart mayWrite={mayWrite} leads={therapist.role === 'lead'} measures={setUpInWords(await clinicDetailsOf(therapist))} />
      ) : (
        <>
          <MarkShapes />
          <WeeksStrip days={shown.days} today={today} />
          <div className={styles.workTools}>
            <nav className="filters" aria-label="Whose work">
              {[false, true].map((mine) => (
                <a
                  key={String(mine)}
                  href={addressOf({ ...view, mine, places: {}, answer: null })}
                  aria-current={mine === view.mine ? 'true' : undefined}
                  data-soft="stay"
                >
                  {mine ? 'Mine' : 'Everyone’s'}
                </a>
              ))}
            </nav>
            <nav className="filters" aria-label="Kind of work">
              {FILTERS.map(({ kind, words }) => (
                <a
                  key={kind}
                  href={addressOf({ ...view, kind, places: {}, answer: null })}
                  aria-current={kind === view.kind ? 'true' : undefined}
                  data-soft="stay"
                >
                  {words}
                </a>
              ))}
            </nav>
            <search>
              <form action="/" className={styles.workSearch}>
                {view.kind !== 'all' && <input type="hidden" name="kind" value={view.kind} />}
                {view.mine && <input type="hidden" name="whose" value="mine" />}
                <label className="visually-hidden" htmlFor="work-search">
                  Reference or name in this list
                </label>
                <input id="work-search" type="search" name="q" defaultValue={view.q} placeholder="In this list" autoComplete="off" />
                <button className="button" type="submit">
                  Find
                </button>
              </form>
            </search>
          </div>
          {view.mine && <p className={styles.workMatches}>Patients whose newest visit was written by you.</p>}
          {shown.matches !== null && <Matches shown={shown} view={view} />}
          {shown.groups.map((group) => (
            <WorkTable
              key={group.group}
              shown={group}
              overdueOf={shown.overdueOf}
              today={today}
              view={view}
              nothing={nothingIn(group.group, shown, view)}
              answer={answer}
              mayWrite={mayWrite}
            />
          ))}
        </>
      )}
      <p className="protocol-line">Intervals and lead times are those of the limits in force. Follow local protocol and the prescriber.</p>
    </main>
  );
}

function summary({ all, overdueLines, patients, awaited }: Today): string {
  const way = awaited === 0 ? '' : `, ${awaited} ${awaited === 1 ? 'piece' : 'pieces'} on the way`;
  const things = overdueLines > all.overdue ? ` with ${overdueLines} things` : '';
  return `${all.overdue} of ${patients} ${patients === 1 ? 'patient' : 'patients'} overdue${things}, ${all['this-week']} to see to this week${way}.`;
}

function Matches({ shown: { matches }, view }: { shown: Today; view: TodayView }) {
  return (
    <p className={styles.workMatches} role="status">
      {matches === 0 ? `Nobody matches “${view.q}”.` : `${matches} ${matches === 1 ? 'patient matches' : 'patients match'} “${view.q}”.`}
      {(matches ?? 0) > 200 && ' The first 200 by reference are looked through; more letters find the rest.'}{' '}
      <a href={addressOf({ ...view, q: '', answer: null })} data-soft="">
        Show all
      </a>
    </p>
  );
}

function nothingIn(group: WorkGroup, { nextVisit }: Today, { q, kind }: TodayView): string {
  const of = kind === 'all' && !q ? 'Nothing' : 'Nothing of this kind';
  if (q) return 'None of those found.';
  if (group === 'overdue') return `${of} is overdue.`;
  if (group === 'later') return `${of} is due later. Dates come with visits and pieces.`;
  const next = nextVisit && ` The next visit is ${nextVisit.name ?? nextVisit.reference}, ${showShortWeekday(nextVisit.due)}.`;
  return `${of} is due this week.${next ?? ''}`;
}

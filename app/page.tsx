import type { Metadata } from 'next';
import Link from 'next/link';
import { clinicOf } from '@/db/clinic';
import { groupOf, type WorkKind } from '@/lib/schedule/worklist';
import { type CalendarDay, showShortWeekday, showWeekday } from '@/lib/units/calendar-day';
import { requireTherapist } from './_session/therapist';
import { todayIn } from './_session/today';
import { type ClinicWork, clinicWork, onePerPatient } from './_today/clinic-work';
import { WeeksStrip } from './_today/weeks-strip';
import { WorkTable } from './_today/work-table';

export const metadata: Metadata = { title: 'Today' };

const FILTERS: readonly { readonly key: WorkKind | 'all'; readonly words: string }[] = [
  { key: 'all', words: 'All' },
  { key: 'order', words: 'Order' },
  { key: 'remeasure', words: 'Remeasure' },
  { key: 'first-fit', words: 'First fit' },
  { key: 'visit', words: 'Visit' },
  { key: 'refer', words: 'Refer' },
];
const FIRST_LATER = 10;

/** The first screen: who needs what, by when and why, in one line each. Filters stand in the address. */
export default async function TodayPage({ searchParams }: { searchParams: Promise<{ kind?: string; later?: string }> }) {
  const therapist = await requireTherapist('/');
  const { kind, later } = await searchParams;
  const today = todayIn((await clinicOf(therapist)).timeZone);
  const { work, patients, looked } = await clinicWork(therapist, today, '');
  const filter = FILTERS.find((one) => one.key === kind)?.key ?? 'all';
  const shown = filter === 'all' ? onePerPatient(work) : work.filter((one) => one.item.kind === filter);
  const mayWrite = therapist.role !== 'read-only';
  return (
    <main id="main">
      <div className="title-row">
        <div>
          <h1>{showWeekday(today)}</h1>
          <p className="secondary">{summary(onePerPatient(work), patients, looked, today)}</p>
        </div>
        {mayWrite && (
          <div className="actions">
            <Link className="button" href="/patients/new" prefetch={false}>
              New patient
            </Link>
            <Link className="button main" href="/patients" prefetch={false}>
              New visit
            </Link>
          </div>
        )}
      </div>
      {patients === 0 ? (
        <p className="nothing-yet">
          No patients yet. Add the first one; the ladder of the first visit is what every later one is compared with.
        </p>
      ) : (
        <>
          <WeeksStrip work={work} today={today} />
          <nav className="filters" aria-label="Kind of work">
            {FILTERS.map((one) => (
              <Link
                key={one.key}
                href={one.key === 'all' ? '/' : `/?kind=${one.key}`}
                aria-current={one.key === filter ? 'true' : undefined}
                prefetch={false}
              >
                {one.words}
              </Link>
            ))}
          </nav>
          {shown.length === 0 && <p className="nothing-yet">{nothingDue(work)}</p>}
          <WorkTable group="overdue" work={shown} today={today} most={shown.length} />
          <WorkTable group="this-week" work={shown} today={today} most={shown.length} />
          <WorkTable group="later" work={shown} today={today} most={later === 'all' ? shown.length : FIRST_LATER} />
          <LaterLink shown={shown} today={today} later={later} filter={filter} />
        </>
      )}
      <p className="protocol-line">Intervals and lead times are this clinic's own. Follow local protocol and the prescriber.</p>
    </main>
  );
}

function summary(work: readonly ClinicWork[], patients: number, looked: number, today: CalendarDay): string {
  const overdue = work.filter((one) => groupOf(one.item.due, today) === 'overdue').length;
  const week = work.filter((one) => groupOf(one.item.due, today) === 'this-week').length;
  const all = patients > looked ? ` The first ${looked} of ${patients} patients are looked at here; search finds the rest.` : '';
  return `${overdue} of ${patients} ${patients === 1 ? 'patient' : 'patients'} overdue, ${week} to see to this week.${all}`;
}

function nothingDue(work: readonly ClinicWork[]): string {
  const next = work.find((one) => one.item.kind === 'visit');
  return next
    ? `Nothing of this kind is due. The next visit is ${next.patient.name ?? next.patient.reference}, ${showShortWeekday(next.item.due)}.`
    : 'Nothing is due.';
}

function LaterLink({
  shown,
  today,
  later,
  filter,
}: {
  shown: readonly ClinicWork[];
  today: CalendarDay;
  later: string | undefined;
  filter: string;
}) {
  const rest = shown.filter((one) => groupOf(one.item.due, today) === 'later').length - FIRST_LATER;
  if (rest <= 0 || later === 'all') return null;
  return (
    <p className="pages">
      <Link href={filter === 'all' ? '/?later=all' : `/?kind=${filter}&later=all`} prefetch={false}>
        {`Show the next ${rest}`}
      </Link>
    </p>
  );
}

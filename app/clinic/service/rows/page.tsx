import type { Metadata } from 'next';
import { requireRole } from '@/app/_auth/therapist';
import { todayIn } from '@/app/_auth/today';
import { periodNamed } from '@/app/_service/service-period-of';
import {
  AGAINST_WORDS,
  CAME_WORDS,
  formInWords,
  givenInWords,
  perHundred,
  periodInWords,
  ruleInWords,
  tenthInWords,
} from '@/app/_service/service-words';
import { ColumnHeads } from '@/app/_shell/column-heads';
import { clinicOf } from '@/db/clinic/clinic';
import { headsOf } from '@/db/patients/find-patients';
import { ROW_FIGURES, ROW_KINDS, type RowChoice, type ServiceRow, serviceRows } from '@/db/service/service-rows';
import type { AnswerOutcome } from '@/lib/analysis/answer-outcomes';
import { servicePeriod } from '@/lib/service/service-period';
import type { GivenAgainst } from '@/lib/service/what-came';
import { calendarDay, showDay } from '@/lib/units/calendar-day';

export const metadata: Metadata = { title: 'Cases behind a figure' };

type Asked = Readonly<Partial<Record<'period' | 'figure' | 'by' | 'of', string | string[]>>>;

const MOST = 200;

const TITLES: Readonly<Record<RowChoice['figure'], string>> = {
  'first-fits': 'First fittings',
  fittings: 'Fittings',
  remakes: 'Remakes',
  'to-fit': 'Pieces kept, days from the order sent',
  making: 'First deliveries, days from the order sent',
  booked: 'Booked visits, kept or missed',
  prompts: 'Prompts answered',
  without: 'Limbs and months with days without a working piece',
  excess: 'Limbs through a phase, and what became of their excess',
  verdicts: 'Verdicts given, and what later visits say',
  ranges: 'Changes measured next, against the range given',
  chances: 'Chances stated, and what came by later visits',
  outgrow: 'Outgrow days given, and when the fit ended',
};

const ANSWERS: Readonly<Record<string, string>> = { act: 'acted on', 'not-now': 'put off', 'not-for-this-patient': 'declined' };

/** The cases that a figure of the service counts, the newest first, each with its patient. For leads. */
export default async function ServiceRowsPage({ searchParams }: { searchParams: Promise<Asked> }) {
  const lead = await requireRole('lead');
  const [asked, clinic] = [await searchParams, await clinicOf(lead)];
  const period = servicePeriod(periodNamed(asked.period), todayIn(clinic.timeZone));
  const choice = choiceOf(asked);
  const { rows, total } = await serviceRows(lead, choice, period, MOST);
  const heads = new Map((await headsOf(lead, [...new Set(rows.map((row) => row.patientId))])).map((head) => [head.patientId, head]));
  return (
    <main id="main">
      <div className="title-row">
        <div>
          <h1>{TITLES[choice.figure]}</h1>
          <p className="secondary">{`${kindInWords(choice)}${periodInWords(period)}. ${counted(total)}`}</p>
        </div>
        <a className="button" href={`/clinic/service?period=${period.choice}`} data-soft="">
          Back to the figures
        </a>
      </div>
      {rows.length > 0 && (
        <table className="worklist">
          <thead>
            <tr>
              <ColumnHeads of={['Patient', 'Day', 'What']} />
              {choice.figure !== 'booked' && <th scope="col">{headOf(choice.figure)}</th>}
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <tr key={`${row.patientId} ${row.pieceId} ${String(row.day)} ${row.what} ${row.of}`}>
                <th scope="row">
                  <a className="quiet-link" href={`/patients/${row.patientId}`} data-soft="">
                    {heads.get(row.patientId)?.reference ?? 'a patient whose record cannot be read'}
                  </a>
                </th>
                <td>{dayOf(row, clinic.timeZone)}</td>
                <td>{whatInWords(row, choice.figure)}</td>
                {choice.figure !== 'booked' && (
                  <td>{row.pieceId ? <PieceLink row={row} pieceId={row.pieceId} /> : ofInWords(row, choice.figure)}</td>
                )}
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </main>
  );
}

function headOf(figure: RowChoice['figure']): string {
  if (figure === 'prompts') return 'Rule';
  if (figure === 'without' || figure === 'excess') return 'Limb';
  return figure === 'verdicts' || figure === 'ranges' || figure === 'chances' ? 'Verdict' : 'Piece';
}

function ofInWords({ of, answer }: ServiceRow, figure: RowChoice['figure']): string {
  if (!answer) return ruleInWords(of);
  return figure === 'outgrow' ? `piece ${of}` : givenInWords(of ?? '');
}

function PieceLink({ row, pieceId }: { readonly row: ServiceRow; readonly pieceId: string }) {
  return (
    <a className="quiet-link" href={`/patients/${row.patientId}/pieces/${pieceId}`} data-soft="">
      {row.of === null ? `piece ${row.label}` : `piece ${row.label}, ${formInWords(row.of)}`}
    </a>
  );
}

/** What an address asks for; first fittings where it names nothing that there is. */
function choiceOf({ figure, by, of }: Asked): RowChoice {
  const kind = ROW_KINDS.find((one) => one === by);
  const named = { figure: ROW_FIGURES.find((one) => one === figure) ?? ('first-fits' as const) };
  return kind ? { ...named, by: kind, of: typeof of === 'string' ? of.slice(0, 200) : null } : named;
}

function kindInWords({ figure, by, of }: RowChoice): string {
  if (by === undefined) return '';
  if (by === 'phase') return `Phase: ${ruleInWords(of ?? null)}. `;
  if (by === 'answer') return `${answersInWords(figure, of ?? '')}. `;
  if (by === 'back') return of === 'yes' ? 'Altered or made again before. ' : 'Kept at the first fitting. ';
  if (by === 'form') return `Form: ${formInWords(of ?? null)}. `;
  return by === 'rule' ? `Rule: ${ruleInWords(of ?? null)}. ` : `Reason: ${of ?? 'none named'}. `;
}

function answersInWords(figure: RowChoice['figure'], of: string): string {
  if (figure === 'chances') return tenthInWords(Number(of));
  if (figure === 'outgrow') return CAME_WORDS[of as AnswerOutcome['came']] ?? of;
  return figure === 'ranges' ? (AGAINST_WORDS[of as GivenAgainst] ?? of) : givenInWords(of);
}

function counted(total: number): string {
  if (total === 0) return 'No case.';
  const cases = total === 1 ? '1 case.' : `${total} cases.`;
  return total > MOST ? `${cases} The newest ${MOST} are shown.` : cases;
}

function dayOf({ day }: ServiceRow, timeZone: string): string {
  return showDay(typeof day === 'string' ? calendarDay(day) : todayIn(timeZone, day));
}

function whatInWords({ days, what, answer }: ServiceRow, figure: RowChoice['figure']): string {
  if (answer) return answerInWords(answer, figure);
  const words = what === null ? null : (ANSWERS[what] ?? what);
  const counted = days === null ? null : days === 1 ? '1 day' : `${days} days`;
  return [counted, words].filter(Boolean).join(', ');
}

function answerInWords({ came, probability, changed, miss, daysOff }: NonNullable<ServiceRow['answer']>, figure: RowChoice['figure']) {
  const sds = miss === null ? '' : `${(Math.abs(miss) / 100).toFixed(2)} SD ${miss < 0 ? 'below' : 'above'} what was given`;
  if (figure === 'ranges') return `${miss !== null && Math.abs(miss) <= 196 ? 'held' : 'not held'}, ${sds}`;
  const stated = probability === null ? '' : `chance ${perHundred(probability)} in 100, ${changed ? 'came' : 'did not come'}`;
  if (figure === 'chances') return stated;
  const off = daysOff === null ? '' : daysOff < 0 ? `${-daysOff} days before the outgrow day` : `${daysOff} days after the outgrow day`;
  return [CAME_WORDS[came as AnswerOutcome['came']] ?? came, off].filter(Boolean).join(', ');
}

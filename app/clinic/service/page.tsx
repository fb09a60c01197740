import type { Metadata } from 'next';
import { requireRole } from '@/app/_auth/therapist';
import { todayIn } from '@/app/_auth/today';
import { CarePanel } from '@/app/_service/care-panel';
import { ChartPanel } from '@/app/_service/chart-panel';
import { DaysTable } from '@/app/_service/days-table';
import { PromptsTable } from '@/app/_service/prompts-table';
import { RightPanels } from '@/app/_service/right-panels';
import styles from '@/app/_service/service.module.css';
import { ServiceHeads } from '@/app/_service/service-heads';
import { periodNamed } from '@/app/_service/service-period-of';
import { formInWords, periodInWords, showDays } from '@/app/_service/service-words';
import { ShareTable } from '@/app/_service/share-table';
import { PrintButton } from '@/app/_shell/print-button';
import { clinicOf } from '@/db/clinic/clinic';
import { policyOf } from '@/db/clinic/policy';
import { storedServiceCounts } from '@/db/service/stored-counts';
import { isNoAnswer } from '@/lib/outcome';
import type { Of, ServiceFigures, ShareFigure } from '@/lib/service/service-figures';
import { serviceFigures } from '@/lib/service/service-figures';
import { SERVICE_PERIODS, servicePeriod } from '@/lib/service/service-period';

export const metadata: Metadata = { title: 'How good are we?' };

const CHOICES = { year: 'This year', 'twelve-months': 'Last 12 months', all: 'All' } as const;

/** How good the clinic's own service was: figures with n, range and their cases, charts with what stands out. For leads. */
export default async function ServicePage({ searchParams }: { searchParams: Promise<{ period?: string | string[] }> }) {
  const lead = await requireRole('lead');
  const [asked, clinic] = [await searchParams, await clinicOf(lead)];
  const period = servicePeriod(periodNamed(asked.period), todayIn(clinic.timeZone));
  const figures = serviceFigures(await storedServiceCounts(lead, period), period);
  return (
    <main id="main" className={styles.service}>
      <div className="title-row">
        <div>
          <h1>How good are we?</h1>
          <p className="secondary">{`${periodInWords(period)}, ${clinic.name}’s own record. For leads; people are never ranked.`}</p>
        </div>
        <div className="actions">
          <nav className="filters" aria-label="Period">
            {SERVICE_PERIODS.map((choice) => (
              <a
                key={choice}
                href={`/clinic/service?period=${choice}`}
                aria-current={choice === period.choice ? 'page' : undefined}
                data-soft=""
              >
                {CHOICES[choice]}
              </a>
            ))}
          </nav>
          <PrintButton words="Print" />
          <a className="button" href={`/clinic/service/file?period=${period.choice}`} download>
            Figures as CSV
          </a>
          <a className="button" href="/clinic/service/file?as=dictionary" download>
            Its dictionary
          </a>
          <a className="button" href="/clinic" data-soft="">
            Back to the clinic
          </a>
        </div>
      </div>
      <ServiceHeads figures={figures} />
      <div className={styles.servicePanels}>
        <Remakes figures={figures} />
        <Days figures={figures} />
        <section className="panel" aria-labelledby="by-form">
          <h2 id="by-form">First fits by form</h2>
          <p className="secondary">Kept at the first fitting, without alteration, of pieces fitted for the first time.</p>
          {figures.firstFitsByForm.length === 0 ? (
            <p>{noAnswerOf(figures.firstFits)}</p>
          ) : (
            <ShareTable
              rows={figures.firstFitsByForm}
              name="Form"
              inWords={formInWords}
              choice={{ figure: 'first-fits', by: 'form' }}
              period={period}
              caption="First fits that were good, in a hundred; 95 % range. Bars end at 100; pale bars have fewer than ten."
              end={1}
            />
          )}
        </section>
        <section className="panel" aria-labelledby="prompts">
          <h2 id="prompts">Prompts answered</h2>
          <p className="secondary">Each by its last answer in the period; begun and not done is no answer. Days end at midnight UTC.</p>
          {figures.promptsByRule.length === 0 ? (
            <p>{noAnswerOf(figures.prompts)}</p>
          ) : (
            <PromptsTable rows={figures.promptsByRule} period={period} />
          )}
        </section>
        <CarePanel figures={figures} />
        <RightPanels figures={figures} errorScale={(await policyOf(lead)).errorScale} />
      </div>
      <p className="secondary small">
        A booked visit was kept where something was measured on its day; cancelled ones, and those nobody said anything of, are not counted.
        Days count from the order sent: the day of a prescription is not kept. A piece works from its first wear to the end of its expected
        life, unless it went out of use or was sent back; days on hold are left out, as is the present month. Months are whole calendar
        months. Charts run over the whole record, so that their limits do not move with the period. Ranges are 95 %: of a share Wilson’s, of
        a median between two cases by order. What stands out: one value outside, eight in a row on one side, six in a row rising or falling.
      </p>
    </main>
  );
}

function Remakes({ figures }: { readonly figures: ServiceFigures }) {
  const { period, remakes, remakesByReason, remakesByForm, remakeChart } = figures;
  const isRare = !isNoAnswer(remakeChart) && remakeChart.kind === 'between';
  return (
    <>
      <ChartPanel
        id="remakes"
        title={isRare ? 'Fittings between remakes' : 'Remakes by month'}
        of={remakeChart}
        show={isRare ? (value) => value.toFixed(0) : (value) => `${Number((100 * value).toFixed(1))}\u202f%`}
        value={isRare ? 'Fittings' : 'Remakes'}
        says={
          isRare
            ? 'Less than one remake a month: how many fittings went well between two. A long stretch is good news.'
            : 'Of the fittings of a month, those that ended in a remake; open marks have fewer than 20.'
        }
      />
      <section className="panel" aria-labelledby="reasons">
        <h2 id="reasons">Remakes by reason and form</h2>
        {isNoAnswer(remakes) ? (
          <p>{remakes.noAnswer}</p>
        ) : (
          <>
            {remakesByReason.length === 0 ? (
              <p>{`None of ${remakes.all} fittings ended in a remake.`}</p>
            ) : (
              <ShareTable
                rows={remakesByReason}
                name="Reason"
                inWords={(reason) => reason ?? 'no reason named'}
                choice={{ figure: 'remakes', by: 'reason' }}
                period={period}
                caption="Remakes in a hundred fittings; 95 % range; pale bars have fewer than ten."
                end={highest(remakesByReason)}
              />
            )}
            <ShareTable
              rows={remakesByForm}
              name="Form"
              inWords={formInWords}
              choice={{ figure: 'fittings', by: 'form' }}
              period={period}
              caption="Remakes in a hundred fittings of a form."
              end={highest(remakesByForm)}
            />
          </>
        )}
      </section>
    </>
  );
}

function Days({ figures }: { readonly figures: ServiceFigures }) {
  const { period, parts, toFit, toFitAtFirst, toFitAfterGoingBack, making, makingByForm, daysChart } = figures;
  return (
    <>
      <ChartPanel
        id="days"
        title="Days from order to fit, by month"
        of={daysChart}
        show={(value) => Number(value.toFixed(1)).toString()}
        value="Mean days"
        says="Mean of the pieces kept in a month, from the day their order was sent; open marks have fewer than 20."
      />
      <section className="panel" aria-labelledby="where">
        <h2 id="where">Days, and where they went</h2>
        <p className="secondary">
          {isNoAnswer(parts)
            ? parts.noAnswer
            : `Pieces kept at the first fitting, mean days: measured to sent ${parts.measuring.toFixed(1)}, sent to delivered ${parts.making.toFixed(1)}, delivered to fitted ${parts.waiting.toFixed(1)} (n ${parts.n}).`}
        </p>
        <DaysTable
          name="Pieces"
          caption="Days from the order sent to the fit that was kept."
          period={period}
          rows={[
            { name: 'all', figure: toFit, choice: { figure: 'to-fit' } },
            { name: 'kept at the first fitting', figure: toFitAtFirst, choice: { figure: 'to-fit', by: 'back', of: 'no' } },
            { name: 'altered or made again before', figure: toFitAfterGoingBack, choice: { figure: 'to-fit', by: 'back', of: 'yes' } },
          ]}
        />
        <DaysTable
          name="Form"
          caption={`Making and delivery: days from the order sent to the first delivery${isNoAnswer(making) ? '' : `; all forms ${showDays(making.median)}`}.`}
          period={period}
          rows={makingByForm.map(({ of, figure }) => ({
            name: formInWords(of),
            figure,
            choice: { figure: 'making', by: 'form', of },
          }))}
        />
      </section>
    </>
  );
}

function highest(rows: readonly Of<ShareFigure>[]): number {
  return Math.max(0.01, ...rows.map(({ figure }) => (isNoAnswer(figure) ? 0 : figure.high)));
}

function noAnswerOf(figure: ShareFigure): string {
  return isNoAnswer(figure) ? figure.noAnswer : '';
}

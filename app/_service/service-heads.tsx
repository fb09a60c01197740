import type { RowChoice } from '@/db/service/service-rows';
import { isNoAnswer } from '@/lib/outcome';
import type { DaysFigure, ServiceFigures, ShareFigure } from '@/lib/service/service-figures';
import { RowsLink } from './rows-link';
import styles from './service.module.css';
import { daysRange, perHundred, shareRange, showDays } from './service-words';

/** The six figures at the head: each with its range and n, or why it has none. */
export function ServiceHeads({ figures }: { readonly figures: ServiceFigures }) {
  const { period } = figures;
  const share = (words: string, figure: ShareFigure, choice: RowChoice) =>
    isNoAnswer(figure) ? (
      <Head key={words} value="no answer" words={words} under={figure.noAnswer} />
    ) : (
      <Head key={words} value={`${perHundred(figure.share)}\u202f%`} words={words} under={`range ${shareRange(figure)}\u202f%`}>
        <RowsLink {...choice} period={period} words={`${figure.some} of ${figure.all}`} about={words} />
      </Head>
    );
  const days = (words: string, figure: DaysFigure, choice: RowChoice) =>
    isNoAnswer(figure) ? (
      <Head key={words} value="no answer" words={words} under={figure.noAnswer}>
        {figure.n > 0 && <RowsLink {...choice} period={period} words={`n ${figure.n}`} about={words} />}
      </Head>
    ) : (
      <Head
        key={words}
        value={`${showDays(figure.median)} days`}
        words={words}
        under={`range ${daysRange(figure)} · 9 in 10 by ${showDays(figure.nineInTen)}`}
      >
        <RowsLink {...choice} period={period} words={`n ${figure.n}`} about={words} />
      </Head>
    );
  return (
    <dl className={styles.serviceHeads}>
      {share('first fits good, no alteration', figures.firstFits, { figure: 'first-fits' })}
      {share('of fittings ended in a remake', figures.remakes, { figure: 'fittings' })}
      {days('order sent to the fit that was kept, median', figures.toFit, { figure: 'to-fit' })}
      {days('order sent to first delivery, median', figures.making, { figure: 'making' })}
      {share('of booked visits were missed', figures.missed, { figure: 'booked' })}
      {share('of answered prompts acted on', figures.prompts, { figure: 'prompts' })}
    </dl>
  );
}

function Head({ value, words, under, children }: { value: string; words: string; under: string; children?: React.ReactNode }) {
  return (
    <div>
      <dt>{words}</dt>
      <dd>
        <span className={styles.headValue}>{value}</span>
        <span className={styles.headUnder}>
          {children}
          {children && ' · '}
          {under}
        </span>
      </dd>
    </div>
  );
}

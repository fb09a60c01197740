import { ColumnHeads } from '@/app/_shell/column-heads';
import type { RowChoice } from '@/db/service/service-rows';
import { isNoAnswer } from '@/lib/outcome';
import { daysOfCases, type ServiceFigures } from '@/lib/service/service-figures';
import type { ServicePeriod } from '@/lib/service/service-period';
import type { AgainstStated, RightFigures } from '@/lib/service/were-we-right';
import { ReliabilityPicture } from './reliability-picture';
import { RowsLink } from './rows-link';
import { AGAINST_WORDS, CAME_WORDS, daysRange, givenInWords, perHundred, showDays, tenthInWords } from './service-words';

type Props = { readonly figures: ServiceFigures; readonly errorScale: number };
type Of = { readonly right: RightFigures; readonly period: ServicePeriod };

/** Whether what was given turned out right: ranges, verdicts, chances and dates, each with n, range and its cases. */
export function RightPanels({ figures: { right, period }, errorScale }: Props) {
  const isEmpty = right.ranges.length + right.verdicts.length === 0;
  return (
    <>
      <section className="panel" aria-labelledby="right">
        <h2 id="right">Were we right?</h2>
        <p className="secondary">
          Everything was kept as it was given on the day; it is of visits of this period. By later visits is the engine’s own later view;
          the ranges are not: they are held against the next measuring alone.
        </p>
        {isEmpty ? (
          <p>Nothing that was given in this period can be judged yet.</p>
        ) : (
          <>
            <Ranges right={right} period={period} errorScale={errorScale} />
            <Verdicts right={right} period={period} />
          </>
        )}
      </section>
      <section className="panel" aria-labelledby="forecasts">
        <h2 id="forecasts">Were the forecasts right?</h2>
        <p className="secondary">Chance of a change as stated against what came by later visits; outgrow days against what was found.</p>
        <Chances right={right} period={period} />
        <Outgrow right={right} period={period} />
      </section>
    </>
  );
}

function Ranges({ right: { ranges }, period, errorScale }: Of & { readonly errorScale: number }) {
  return (
    <>
      {ranges.map(({ of, scale, share }) =>
        scale === null ? null : (
          <p key={of}>
            <strong>{`Ranges ${AGAINST_WORDS[of]} are off: ${perHundred(share)} in 100 held, not 95.`}</strong>
            {` With errors of ${scale.toFixed(2)} times the variance 95 in 100 would have: the scale of error, now ${errorScale}, would be about ${(errorScale * scale).toFixed(2)}, and a change would be said ${scale > 1 ? 'less' : 'more'} readily.`}
          </p>
        ),
      )}
      <div className="table-frame">
        <table>
          <caption>
            95 % ranges that held the change measured at the next visit, with nothing noted in between: girth from the same earlier visit,
            less what the body explains, with the error of that measuring.
          </caption>
          <thead>
            <tr>
              <th scope="col">Change</th>
              <ColumnHeads numeric of={['Held in 100', 'Range', 'n']} />
            </tr>
          </thead>
          <tbody>
            {ranges.map((one) => (
              <StatedRow
                key={one.of}
                name={AGAINST_WORDS[one.of]}
                of={one}
                choice={{ figure: 'ranges', by: 'answer', of: one.of }}
                period={period}
              />
            ))}
          </tbody>
        </table>
      </div>
    </>
  );
}

function Verdicts({ right: { verdicts }, period }: Of) {
  return (
    <div className="table-frame">
      <table>
        <caption>Verdicts by later visits: confirmed of those decided, the others contradicted; n counts those still open too.</caption>
        <thead>
          <tr>
            <th scope="col">Verdict</th>
            <ColumnHeads numeric of={['Confirmed', 'In 100', 'Range', 'n']} />
          </tr>
        </thead>
        <tbody>
          {verdicts.map(({ against, word, confirmed, contradicted, open, range }) => {
            const name = givenInWords(`${against} ${word}`);
            return (
              <tr key={name}>
                <th scope="row">{name}</th>
                <td className="numeric">{`${confirmed} of ${confirmed + contradicted}`}</td>
                <td className="numeric">{range ? perHundred(range.share) : '–'}</td>
                <td className="numeric">{range ? `${perHundred(range.low)}–${perHundred(range.high)}` : '–'}</td>
                <td className="numeric">
                  <RowsLink
                    {...{ figure: 'verdicts', by: 'answer', of: `${against} ${word}` }}
                    period={period}
                    words={String(confirmed + contradicted + open)}
                    about={name}
                  />
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </div>
  );
}

function Chances({ right: { tenths, brier }, period }: Of) {
  if (!brier) return <p>No stated chance of this period can be held against a later visit yet.</p>;
  const off = tenths.filter(({ isOff }) => isOff);
  return (
    <>
      <p>
        {`Brier score ${brier.score.toFixed(3)} (0 is best; the base rate said of everybody ${brier.ofBaseRate.toFixed(3)}), n ${brier.n}. `}
        {off.length === 0
          ? 'No tenth is off as far as these cases can show.'
          : off
              .map((one) => `Said ${perHundred(one.stated)} in 100, came ${perHundred(one.share)} (${tenthInWords(one.tenth)}).`)
              .join(' ')}
      </p>
      <ReliabilityPicture tenths={tenths} />
      <div className="table-frame">
        <table>
          <caption>Chance of a change beyond what the body explains, by tenths; dashed in the picture is exactly as stated.</caption>
          <thead>
            <tr>
              <th scope="col">Stated</th>
              <ColumnHeads numeric of={['Mean stated', 'Came in 100', 'Range', 'n']} />
            </tr>
          </thead>
          <tbody>
            {tenths.map((one) => (
              <StatedRow
                key={one.tenth}
                name={tenthInWords(one.tenth)}
                of={one}
                choice={{ figure: 'chances', by: 'answer', of: String(one.tenth) }}
                period={period}
                withStated
              />
            ))}
          </tbody>
        </table>
      </div>
    </>
  );
}

function Outgrow({ right: { outlooks, earlyKept, daysOff }, period }: Of) {
  const all = Object.values(outlooks).reduce((sum, n) => sum + n, 0);
  if (all === 0) return <p>No outgrow day was given in this period.</p>;
  const off = daysOfCases(daysOff);
  return (
    <>
      <p>
        {earlyKept
          ? `Early days kept ${perHundred(earlyKept.share)} in 100 (${earlyKept.some} of ${earlyKept.all}, range ${perHundred(earlyKept.low)}–${perHundred(earlyKept.high)}); 90 are meant to.${earlyKept.isOff ? ` Off by ${perHundred(Math.abs(earlyKept.share - earlyKept.stated))} in 100.` : ''}`
          : 'No early day has come yet.'}
        {isNoAnswer(off)
          ? ` Miss of the outgrow day: ${off.noAnswer}`
          : ` Miss of the outgrow day, median ${showDays(off.median)} days (${daysRange(off)}; below 0 is earlier than said).`}
      </p>
      <div className="table-frame">
        <table>
          <caption>When the fit ended: tightness or length out of its band at a visit, let out, or gone as outgrown.</caption>
          <thead>
            <tr>
              <th scope="col">Ended</th>
              <ColumnHeads numeric of={['n']} />
            </tr>
          </thead>
          <tbody>
            {(Object.keys(outlooks) as (keyof typeof outlooks)[]).map((came) => (
              <tr key={came}>
                <th scope="row">{CAME_WORDS[came]}</th>
                <td className="numeric">
                  {outlooks[came] === 0 ? (
                    0
                  ) : (
                    <RowsLink
                      {...{ figure: 'outgrow', by: 'answer', of: came }}
                      period={period}
                      words={String(outlooks[came])}
                      about={CAME_WORDS[came] ?? came}
                    />
                  )}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </>
  );
}

type StatedProps = {
  readonly name: string;
  readonly of: AgainstStated;
  readonly choice: RowChoice;
  readonly period: ServicePeriod;
  readonly withStated?: boolean;
};

function StatedRow({ name, of, choice, period, withStated = false }: StatedProps) {
  return (
    <tr>
      <th scope="row">{name}</th>
      {withStated && <td className="numeric">{perHundred(of.stated)}</td>}
      <td className="numeric">{`${perHundred(of.share)}${of.isOff ? ', off' : ''}`}</td>
      <td className="numeric">{`${perHundred(of.low)}–${perHundred(of.high)}`}</td>
      <td className="numeric">
        <RowsLink {...choice} period={period} words={`${of.some} of ${of.all}`} about={name} />
      </td>
    </tr>
  );
}

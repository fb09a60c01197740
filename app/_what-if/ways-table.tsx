import { ColumnHeads } from '@/app/_shell/column-heads';
import type { WhatIf } from '@/lib/analysis/what-if';
import { isNoAnswer } from '@/lib/outcome';
import { type CalendarDay, showDay } from '@/lib/units/calendar-day';
import { chanceInWords, daysInWords, WAY_WORDS, whenOrdered } from './way-words';
import styles from './what-if.module.css';

/** The ways side by side: days without a working piece, the worst day, wear life used, what is given up, how long the new piece lasts. */
export function WaysTable({ tried, price }: { tried: WhatIf; price: number | null }) {
  return (
    <div className="table-frame">
      <table>
        <caption>{`To ${showDay(tried.weeks.at(-1) as CalendarDay)}. Days without a working piece: the middle, and what nine of ten keep to.`}</caption>
        <thead>
          <tr>
            <th scope="col">Way</th>
            <ColumnHeads of={['Days without', 'Nine of ten']} numeric />
            <th scope="col">Worst day</th>
            <th scope="col" className="numeric">
              Wear life used
            </th>
            <th scope="col" className="numeric">
              {price === null ? 'Given up, pieces' : 'Given up, pieces and price'}
            </th>
            <th scope="col">New piece lasts to</th>
          </tr>
        </thead>
        <tbody>
          {tried.ways.map((way) => (
            <tr key={way.id}>
              <th scope="row">
                {WAY_WORDS[way.id].full}
                <span className={styles.whenOrdered}>{whenOrdered(way)}</span>
              </th>
              {isNoAnswer(way.ahead) ? (
                <td colSpan={6}>{way.ahead.noAnswer}</td>
              ) : (
                <>
                  <td className="numeric">{daysInWords(way.ahead.daysWithout.median)}</td>
                  <td className="numeric">{daysInWords(way.ahead.daysWithout.ninety)}</td>
                  <td>{`${chanceInWords(way.ahead.worst.chance)}\u202f%, ${showDay(way.ahead.worst.day)}`}</td>
                  <td className="numeric">{`${(way.ahead.lifeUsed * 100).toFixed(0)}\u202f%`}</td>
                  <td className="numeric">
                    {`${way.ahead.piecesGivenUp.toFixed(1)}${price === null ? '' : `, ${(way.ahead.piecesGivenUp * price).toFixed(0)}`}`}
                  </td>
                  <td>{way.ahead.lastsUntil ? showDay(way.ahead.lastsUntil) : 'beyond what can be seen'}</td>
                </>
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

/** The chart's figures, and the chance that this piece is outside its band, week by week. */
export function WeeksTable({ tried }: { tried: WhatIf }) {
  const ways = tried.ways.flatMap(({ id, ahead }) => (isNoAnswer(ahead) ? [] : [{ id, chances: ahead.noneAt }]));
  const { asItIs, letOut } = tried.outside;
  return (
    <div className="table-frame">
      <table>
        <caption>Per cent, on that day. No working piece: every piece outside its band or worn out.</caption>
        <thead>
          <tr>
            <th scope="col">Week of</th>
            <th scope="col" className="numeric">
              Outside the band
            </th>
            {letOut && (
              <th scope="col" className="numeric">
                Outside, let out
              </th>
            )}
            {ways.map(({ id }) => (
              <th key={id} scope="col" className="numeric">
                {`None: ${WAY_WORDS[id].short}`}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {tried.weeks.map((day, week) => (
            <tr key={day}>
              <th scope="row">{showDay(day)}</th>
              <td className="numeric">{shown(asItIs[week])}</td>
              {letOut && <td className="numeric">{shown(letOut[week])}</td>}
              {ways.map(({ id, chances }) => (
                <td key={id} className="numeric">
                  {shown(chances[week])}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function shown(chance: number | undefined): string {
  return chance === undefined ? '–' : chanceInWords(chance);
}

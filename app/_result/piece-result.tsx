import { TightnessChart, type TightnessPoint } from '@/app/_chart/tightness-chart';
import type { LimbPicture } from '@/app/_picture/limb-picture';
import { StaticMarkup } from '@/app/_shell/static-markup';
import type { AnalysedPiece, PatientAnalysis } from '@/lib/analysis/analyse-patient';
import { daysWorn } from '@/lib/garments/wear';
import { countedFrom, placeOnTape, type Ruler } from '@/lib/ladder/place-on-tape';
import { isNoAnswer } from '@/lib/outcome';
import { endOfFit, outgrownInWords, roomSizes } from '@/lib/prompts/outlook-in-words';
import { coverInWords } from '@/lib/prompts/show-figures';
import { REACH_95 } from '@/lib/statistics/reach-95';
import { rulerOf } from '@/lib/trend/limb-series';
import { showDay } from '@/lib/units/calendar-day';
import { showLength } from '@/lib/units/show-length';
import styles from './result.module.css';

/** How one piece sits by this visit's ladder: tightness by place with its error, what the future holds, and the room the next one needs. */
export function PieceResult({
  one,
  alike,
  analysis,
  picture,
}: {
  one: AnalysedPiece;
  alike: readonly AnalysedPiece[];
  analysis: PatientAnalysis;
  picture: LimbPicture | undefined;
}) {
  const { piece, fit } = one;
  const names = alike.map((other) => other.piece.piece);
  const title = `${names.length > 1 ? `Pieces ${names.join(' and ')}` : `Piece ${piece.piece}`} on the ${piece.side} ${piece.limb}`;
  const formula = piece.convention === 'C(1-r)' ? `girth × (1 − ${piece.reductionPct / 100})` : `girth ÷ (1 + ${piece.reductionPct / 100})`;
  const worn = daysWorn(piece, analysis.today);
  if (isNoAnswer(fit)) {
    return (
      <section className={styles.pieceResult} aria-label={title}>
        <h2>{title}</h2>
        <p>{`Tightness is not known: ${fit.noAnswer}`}</p>
      </section>
    );
  }
  const ruler = rulerOf(fit.cut.visit);
  const { unit } = ruler;
  const points = fit.places.map((place) => ({ heightMm: place.heightMm, tightness: place.tightness, reach: REACH_95 * place.sd }));
  const most = Math.max(...points.map((point) => point.tightness));
  const least = Math.min(...points.map((point) => point.tightness));
  const said = `Tightness from ${least.toFixed(2)} to ${most.toFixed(2)} of the fitting over ${points.length} places.`;
  return (
    <section className={styles.pieceResult} aria-label={title}>
      <h2>
        {title}{' '}
        <span className="head-note">{`${coverInWords(piece.covers)}; reduction ${piece.reductionPct}\u202f%, relaxed girth = ${formula}; made to the measurements of ${showDay(piece.cutFrom)}`}</span>
      </h2>
      <div className="panel">
        <div className="chart-scroll">
          <TightnessChart
            points={points}
            side={piece.side}
            band={{ low: analysis.policy.bandLow, high: analysis.policy.bandHigh }}
            ruler={ruler}
            landmarks={picture?.landmarks ?? []}
            said={said}
          />
        </div>
        <p className="secondary">
          {`Places in ${unit === 'in' ? 'inches' : 'centimetres'} ${countedFrom(ruler)}. Band ${analysis.policy.bandLow}–${analysis.policy.bandHigh} is this clinic’s own. Shaded: 95\u202f% range. Age and washing loosen fabric and are not in this figure${isNoAnswer(worn) ? '' : `: day ${worn} of ${piece.lifeDays}`}.`}
        </p>
        <details className="as-table">
          <summary>As a table</summary>
          <TightnessTable points={points} ruler={ruler} />
        </details>
        <Outlook one={one} ruler={ruler} />
      </div>
    </section>
  );
}

/** The figures the chart is drawn from, towards the trunk at the top. */
function TightnessTable({ points, ruler }: { points: readonly TightnessPoint[]; ruler: Ruler }) {
  const { unit } = ruler;
  return (
    <div className="table-frame">
      <StaticMarkup as="table">
        <caption>{`Tightness against the fitting with its 95\u202f% range, by place.`}</caption>
        <thead>
          <tr>
            <th scope="col">Place, {unit}</th>
            <th scope="col" className="numeric">
              Tightness
            </th>
            <th scope="col" className="numeric">
              Range
            </th>
          </tr>
        </thead>
        <tbody>
          {[...points].reverse().map((point) => (
            <tr key={point.heightMm}>
              <th scope="row">{placeOnTape(point.heightMm, ruler)}</th>
              <td className="numeric">{point.tightness.toFixed(2)}</td>
              <td className="numeric">{`${(point.tightness - point.reach).toFixed(2)}–${(point.tightness + point.reach).toFixed(2)}`}</td>
            </tr>
          ))}
        </tbody>
      </StaticMarkup>
    </div>
  );
}

function Outlook({ one, ruler }: { one: AnalysedPiece; ruler: Ruler }) {
  const { unit } = ruler;
  const { outgrow, endOfLife, orderBy, room } = one;
  return (
    <div className={styles.outlook}>
      <p>
        {isNoAnswer(outgrow)
          ? `How long it fits: not known. ${outgrow.noAnswer}`
          : `${outgrownInWords(outgrow)}${outgrow.by === 'length' ? ', by length' : ''}.`}{' '}
        {isNoAnswer(endOfLife) ? endOfLife.noAnswer : `Replacement due ${showDay(endOfLife)}.`}{' '}
        {isNoAnswer(orderBy)
          ? ''
          : `Order by ${showDay(orderBy.day)} (${orderBy.because === 'outgrown' && !isNoAnswer(outgrow) ? endOfFit(outgrow) : orderBy.because}, making and measuring taken off).`}
      </p>
      {isNoAnswer(room) ? (
        <p className="secondary">{`Room to grow: not known. ${room.noAnswer}`}</p>
      ) : room.highMm === 0 ? (
        <p className="secondary">Room to grow: none is expected to be needed.</p>
      ) : (
        <details className="as-table">
          <summary>{`Room to grow in the next piece, ${showDay(room.delivery)} to ${showDay(room.endOfLife)}: ${roomSizes(room, unit)}`}</summary>
          <div className="table-frame">
            <table>
              <caption>{`Let-out width by place, ${unit}, rounded up to the tape step; tightness if the room stays stitched away.`}</caption>
              <thead>
                <tr>
                  <th scope="col">Place, {unit}</th>
                  <th scope="col" className="numeric">
                    Middle estimate
                  </th>
                  <th scope="col" className="numeric">
                    Enough nine times in ten
                  </th>
                  <th scope="col" className="numeric">
                    Tightness at delivery
                  </th>
                  <th scope="col" className="numeric">
                    At end of life
                  </th>
                </tr>
              </thead>
              <tbody>
                {[...room.places].reverse().map((place) => (
                  <tr key={place.placeMm}>
                    <th scope="row">{placeOnTape(place.heightMm, ruler)}</th>
                    <td className="numeric">{showLength(place.middleMm, unit)}</td>
                    <td className="numeric">{showLength(place.highMm, unit)}</td>
                    <td className="numeric">{place.tightnessAtDelivery.toFixed(2)}</td>
                    <td className="numeric">{place.tightnessAtEnd.toFixed(2)}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
        </details>
      )}
    </div>
  );
}

import { ReadInPlace } from '@/app/_chart/read-in-place';
import { TightnessChart, type TightnessPoint } from '@/app/_chart/tightness-chart';
import { tightnessReadings } from '@/app/_chart/tightness-readings';
import { StaticMarkup } from '@/app/_markup/static-markup';
import type { LimbPicture } from '@/app/_picture/limb-picture';
import { ColumnHeads } from '@/app/_shell/column-heads';
import type { PatientAnalysis } from '@/lib/analysis/analyse-patient';
import type { AnalysedPiece } from '@/lib/analysis/analyse-piece';
import { daysWorn } from '@/lib/garments/wear';
import { pressureEstimates, sideOfBand, type WornPlace, wornPlaces } from '@/lib/garments/worn-fit';
import { limbInWords } from '@/lib/ladder/limb';
import { countedFrom, placeOnTape, type Ruler } from '@/lib/ladder/place-on-tape';
import { isNoAnswer } from '@/lib/outcome';
import { endOfFit, outgrownInWords, roomSizes } from '@/lib/prompts/outlook-in-words';
import { followerOf } from '@/lib/prompts/rules/order-in-time';
import { coverInWords } from '@/lib/prompts/show-figures';
import { bandInWords, wearInWords } from '@/lib/prompts/wear-in-words';
import { REACH_95 } from '@/lib/statistics/reach-95';
import { rulerOf } from '@/lib/trend/limb-series';
import { showDay } from '@/lib/units/calendar-day';
import { showLength } from '@/lib/units/show-length';
import { LimbsOfSet } from './limbs-of-set';
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
  const { piece, fit, band, wear } = one;
  const names = alike.map((other) => other.piece.piece);
  const title = `${names.length > 1 ? `Pieces ${names.join(' and ')}` : `Piece ${piece.piece}`} on the ${limbInWords(piece.limb, piece.side)}`;
  const formula = piece.convention === 'C(1-r)' ? `girth × (1 − ${piece.reductionPct / 100})` : `girth ÷ (1 + ${piece.reductionPct / 100})`;
  const days = daysWorn(piece, analysis.today);
  if (isNoAnswer(fit)) {
    return (
      <section className={styles.pieceResult} aria-label={title}>
        <h2>{title}</h2>
        <p>{piece.covers === 'measures' ? fit.noAnswer : `Tightness is not known: ${fit.noAnswer}`}</p>
        {piece.covers === 'measures' && <EndOfMeasures one={one} followed={followerOf(one, analysis.pieces, analysis.today)} />}
      </section>
    );
  }
  const ruler = rulerOf(fit.cut.visit);
  const { unit } = ruler;
  const points = fit.places.map((place) => ({ heightMm: place.heightMm, tightness: place.tightness, reach: REACH_95 * place.sd }));
  const most = Math.max(...points.map((point) => point.tightness));
  const least = Math.min(...points.map((point) => point.tightness));
  const worn = wear.wornDays > 0 ? wornPlaces(fit, wear) : [];
  const tightest = worn.reduce((top, place) => Math.max(top, place.middle), 0);
  const parts = { points, worn, side: fit.cut.visit.ladder.side, band, ruler, landmarks: picture?.landmarks ?? [] };
  const said = `Tightness as cut from ${least.toFixed(2)} to ${most.toFixed(2)} of the fitting over ${points.length} places${worn.length > 0 ? `; as worn up to about ${tightest.toFixed(2)}` : ''}.`;
  return (
    <section className={styles.pieceResult} aria-label={title}>
      <h2>
        {title}{' '}
        <span className="head-note">{`${coverInWords(piece.covers)}; reduction ${piece.reductionPct}\u202f%, relaxed girth = ${formula}; made to the measurements of ${showDay(piece.cutFrom)}`}</span>
      </h2>
      <div className="panel">
        <ReadInPlace
          of={tightnessReadings(parts, (asCut) => sideOfBand(asCut, wear, band))}
          name={`the tightness of ${names.length > 1 ? `pieces ${names.join(' and ')}` : `piece ${piece.piece}`}`}
          points="Places"
          keys={[`To the ${piece.limb === 'leg' ? 'foot' : 'hand'}`, 'To the trunk']}
          layout="wide"
        >
          <TightnessChart {...parts} said={said} />
        </ReadInPlace>
        <p>
          <strong>{`As cut up to ${most.toFixed(2)}`}</strong>
          {`: the girths measured against those it was cut from; shaded 95\u202f%. `}
          {worn.length > 0 && (
            <>
              <strong className={styles.asWorn}>{`As worn up to about ${tightest.toFixed(2)}`}</strong>
              {`, dashed, 95\u202f% dotted: ${wearInWords(wear)}${looseByWear(one, worn)}`}
            </>
          )}
        </p>
        <p className="secondary">
          {`Places in ${unit === 'in' ? 'inches' : 'centimetres'} ${countedFrom(ruler)}. Band ${bandInWords(band)}. ${band.says.join(' ')}${isNoAnswer(days) ? '' : ` ${ageOfPiece(days, piece.lifeDays)}`}`}
        </p>
        <Pressures one={one} analysis={analysis} />
        <details className="as-table">
          <summary>As a table</summary>
          <TightnessTable points={points} worn={worn} ruler={ruler} />
        </details>
        <LimbsOfSet one={one} />
        <Outlook one={one} ruler={ruler} followed={followerOf(one, analysis.pieces, analysis.today)} />
      </div>
    </section>
  );
}

/** Places that wear alone has taken below the band: drawn so, and no reason to refit. */
function looseByWear({ fit, wear, band }: AnalysedPiece, worn: readonly WornPlace[]): string {
  if (isNoAnswer(fit)) return '';
  const loose = worn.filter(({ middle }, index) => {
    const asCut = fit.places[index]?.tightness ?? 0;
    return middle < band.low && asCut >= band.low && sideOfBand(asCut, wear, band) === undefined;
  }).length;
  if (loose === 0) return '';
  const places = loose === worn.length ? 'All places have' : `${loose} of ${worn.length} places ${loose === 1 ? 'has' : 'have'}`;
  return ` ${places} come below the band by wear alone: that is what the replacement date is for.`;
}

/** How old a piece is against the life it is planned for: never a day of fewer days. */
function ageOfPiece(days: number, lifeDays: number): string {
  return days <= lifeDays
    ? `Day ${days} of the ${lifeDays} it is planned for.`
    : `Day ${days} since it was first worn: it was planned for ${lifeDays}.`;
}

/** The figures the chart is drawn from, towards the trunk at the top. */
function TightnessTable({ points, worn, ruler }: { points: readonly TightnessPoint[]; worn: readonly WornPlace[]; ruler: Ruler }) {
  const { unit } = ruler;
  const wornAt = new Map(worn.map((one) => [one.heightMm, one]));
  return (
    <div className="table-frame">
      <StaticMarkup as="table">
        <caption>{`Tightness against the fitting with its 95\u202f% range, by place.`}</caption>
        <thead>
          <tr>
            <th scope="col">Place, {unit}</th>
            <ColumnHeads of={['As cut', 'Range']} numeric />
            {worn.length > 0 && <ColumnHeads of={['As worn', 'Range']} numeric />}
          </tr>
        </thead>
        <tbody>
          {[...points].reverse().map((point) => (
            <tr key={point.heightMm}>
              <th scope="row">{placeOnTape(point.heightMm, ruler)}</th>
              <td className="numeric">{point.tightness.toFixed(2)}</td>
              <td className="numeric">{`${(point.tightness - point.reach).toFixed(2)}–${(point.tightness + point.reach).toFixed(2)}`}</td>
              {worn.length > 0 && (
                <>
                  <td className="numeric">{wornAt.get(point.heightMm)?.middle.toFixed(2) ?? '–'}</td>
                  <td className="numeric">{rangeOf(wornAt.get(point.heightMm))}</td>
                </>
              )}
            </tr>
          ))}
        </tbody>
      </StaticMarkup>
    </div>
  );
}

function rangeOf(place: WornPlace | undefined): string {
  return place ? `${place.low.toFixed(2)}–${place.high.toFixed(2)}` : '–';
}

/** What was read under the piece and what to expect there today; nothing in mmHg without a reading. Readings that are not of it are named. */
function Pressures({ one, analysis }: { one: AnalysedPiece; analysis: PatientAnalysis }) {
  const { fit, readings, wear } = one;
  const estimates = isNoAnswer(fit) ? [] : pressureEstimates(fit, readings, wear, analysis.policy);
  if (estimates.length === 0 && readings.leftOut.length === 0) return null;
  return (
    <ul className={styles.reasons}>
      {estimates.map(({ read, low, middle, high }) => (
        <li key={`${read.posture} ${read.along}`}>
          {`Estimate today ${middle.toFixed(0)}\u202fmmHg (${low.toFixed(0)}–${high.toFixed(0)}), ${read.posture}, ${Math.round(read.along * 100)}\u202f% of the way up: from ${read.mmHg}\u202fmmHg read on ${showDay(read.day)}.`}
        </li>
      ))}
      {readings.leftOut.map((why) => (
        <li key={why}>{`Not counted: ${why}`}</li>
      ))}
    </ul>
  );
}

type Follower = ReturnType<typeof followerOf>;

/** Which piece the next order is counted from, and until when that lasts: being there does not say that it fits longer. */
function followedInWords({ piece, until, longer }: NonNullable<Follower>): string {
  return longer
    ? `Piece ${piece} is taken to last until ${showDay(until)}, so the next order is counted from it.`
    : `Piece ${piece} is taken to last no longer; the next order is counted from it.`;
}

/** When a piece made to named measures alone is to be replaced, and ordered by; a figure that needs a ladder is not there. */
function EndOfMeasures({ one: { endOfLife, orderBy }, followed }: { one: AnalysedPiece; followed: Follower }) {
  const ends = isNoAnswer(endOfLife) ? endOfLife.noAnswer : `Replacement due ${showDay(endOfLife)}.`;
  const because = !isNoAnswer(orderBy) && orderBy.because === 'outgrown' ? 'outgrown by a named measure' : 'end of life';
  const next = isNoAnswer(orderBy) ? '' : `Order by ${showDay(orderBy.day)} (${because}, making and measuring taken off).`;
  return <p>{`${ends} ${followed ? followedInWords(followed) : next}`.trim()}</p>;
}

function Outlook({ one, ruler, followed }: { one: AnalysedPiece; ruler: Ruler; followed: Follower }) {
  const { unit } = ruler;
  const { fit, outgrow, endOfLife, orderBy, room } = one;
  // The next piece is cut from the newest ladder: its places stand as on that tape.
  const newest = isNoAnswer(fit) ? ruler : rulerOf(fit.latest);
  return (
    <div className={styles.outlook}>
      <p>
        {isNoAnswer(outgrow)
          ? `How long it fits: not known. ${outgrow.noAnswer}`
          : `${outgrownInWords(outgrow)}${outgrow.by === 'length' ? ', by length' : ''}${one.ofSet.length > 0 ? `, on the ${limbInWords(one.outgrowOn.limb, one.outgrowOn.side)}` : ''}.`}{' '}
        {isNoAnswer(endOfLife) ? endOfLife.noAnswer : `Replacement due ${showDay(endOfLife)}.`}{' '}
        {followed
          ? followedInWords(followed)
          : isNoAnswer(orderBy)
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
                  <ColumnHeads of={['Middle estimate', 'Enough nine times in ten', 'Tightness at delivery', 'At end of life']} numeric />
                </tr>
              </thead>
              <tbody>
                {[...room.places].reverse().map((place) => (
                  <tr key={place.placeMm}>
                    <th scope="row">{placeOnTape(place.heightMm, newest)}</th>
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

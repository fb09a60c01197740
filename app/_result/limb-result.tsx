import { Fragment, type ReactNode } from 'react';
import { todayIn } from '@/app/_auth/today';
import { type ChangeRow, ChangeRuler } from '@/app/_chart/change-ruler';
import { LimbGlyph } from '@/app/_picture/limb-glyph';
import type { LimbPicture, PictureLimb } from '@/app/_picture/limb-picture';
import { stretchFor } from '@/app/_picture/stretched-change';
import type { AnalysedLimb, AnalysedVisit, PatientAnalysis } from '@/lib/analysis/analyse-patient';
import type { ZeroChoice } from '@/lib/ladder/ladder';
import { stretchOnTape } from '@/lib/ladder/place-on-tape';
import { isNoAnswer, type NoAnswer } from '@/lib/outcome';
import { courseSentence, howSureInWords, whenInWords, whereInWords } from '@/lib/prompts/change-in-words';
import { reasonsBesideVerdict } from '@/lib/prompts/reasons-in-words';
import { pct } from '@/lib/prompts/show-figures';
import { REACH_95 } from '@/lib/statistics/reach-95';
import { baselineInWords } from '@/lib/summary/phase-words';
import { verdictSentence } from '@/lib/summary/verdict-sentence';
import type { JudgedChange } from '@/lib/trend/judged-change';
import { heightOnLimb, rulerOf, tapeErrorOf } from '@/lib/trend/limb-series';
import { showDay } from '@/lib/units/calendar-day';
import { capitalized } from '@/lib/units/capitalized';
import type { LengthUnit } from '@/lib/units/length';
import { showLength, showLengthWithUnit } from '@/lib/units/show-length';
import { showVolume } from '@/lib/units/volume';
import { namedSegments } from '@/lib/volume/named-segments';
import { changeRows } from './change-rows';
import styles from './result.module.css';
import { ShiftReadings, type VisitRef } from './shift-readings';

/** Height of the outline beside a verdict, and about the scale that gives a leg, px per mm. */
const OUTLINE_PX = 210;
const OUTLINE_SCALE = 0.35;

type Props = {
  readonly limb: AnalysedLimb;
  readonly visit: AnalysedVisit;
  readonly analysis: PatientAnalysis;
  readonly picture: LimbPicture | undefined;
  readonly visitRef: VisitRef | null;
  /** The clinic's, for days of moments. */
  readonly timeZone: string;
  /** Changes of every limb of the visit, so that the rulers side by side have one scale. */
  readonly beside: readonly ChangeRow[];
  /** Stands under what is said of the change. */
  readonly children?: ReactNode;
};

/** What a visit says of one limb: the verdict as a sentence, its figures, the change ruler, the outline, and the shift's two readings. */
export function LimbResult({ limb, visit, analysis, picture, visitRef, beside, timeZone, children }: Props) {
  const { side } = limb.series;
  const rows = changeRows(limb, visit, analysis);
  const own = picture?.limbs.find((one) => one.side === side);
  const last = visit.sinceLast && !isNoAnswer(visit.sinceLast) ? visit.sinceLast : null;
  const shifted = [visit.sinceLast, visit.sinceBaseline].find((one) => one && !isNoAnswer(one) && one.change.shift?.finding);
  return (
    <section className={`panel ${styles.limbResult}`} data-side={side} aria-label={`${side} ${limb.series.limb}`}>
      <div className={styles.limbResultHead}>
        <div>
          <p>
            <strong className="side-word">{`${side === 'left' ? 'Left' : 'Right'} ${limb.series.limb}`}</strong>{' '}
            <span className="secondary">{limb.affected ? 'affected' : 'other limb'}</span>
          </p>
          <h2 className="verdict">{sentenceOf(visit, analysis)}</h2>
          <ThreeLines visit={visit} judged={last} />
          {children}
          <details className="as-table">
            <summary>Figures behind it</summary>
            <SinceBaseline limb={limb} visit={visit} analysis={analysis} />
            <VolumeLine visit={visit} isSaid={!last?.found} />
            <Segments visit={visit} analysis={analysis} />
            {last && (
              <ul className={styles.reasons}>
                {reasonsBesideVerdict(last).map((reason) => (
                  <li key={reason}>{reason}</li>
                ))}
              </ul>
            )}
          </details>
        </div>
        {picture && own && <ResultOutline picture={picture} limb={own} />}
      </div>
      {rows.length > 0 && <ChangeRuler rows={rows} beside={beside} side={side} name={`ruler-${side}`} />}
      {shifted && !isNoAnswer(shifted) && <ShiftReadings judged={shifted} visit={visitRef} />}
      {visit.at.ladder.zeroChoice && <p>{zeroChoiceInWords(visit.at.ladder.zeroChoice, visit.at.ladder.unit, timeZone)}</p>}
      {visit.at.doubts.length > 0 && (
        <ul className={styles.doubts}>
          {visit.at.doubts.map((doubt) => (
            <li key={`${doubt.kind} ${doubt.distanceMm}`}>{`◇ ${doubt.message}`}</li>
          ))}
        </ul>
      )}
    </section>
  );
}

/** The limb as it was last measured, with the ladder of its piece or of the first visit behind it, and its doubts. */
function ResultOutline({ picture, limb }: { picture: LimbPicture; limb: PictureLimb }) {
  const earlier = limb.earlier[0];
  const stretch = earlier ? stretchFor(limb.girthsMm, filledWith(earlier.girthsMm, limb.girthsMm), OUTLINE_SCALE) : 1;
  return (
    <div className={styles.resultOutline}>
      <LimbGlyph
        side={limb.side}
        heightsMm={limb.heightsMm}
        girthsMm={limb.girthsMm}
        landmarksMm={picture.landmarks.map((landmark) => landmark.heightMm)}
        heightPx={OUTLINE_PX}
        stretch={stretch}
        asked={limb.asked}
        {...(earlier ? { earlier: earlier.girthsMm } : {})}
      />
      {earlier && (
        <p className={styles.outlineNote}>
          {`Thin line: ${showDay(earlier.day)}${earlier.kind === 'cut from' ? ', piece made to it' : ''}${stretch > 1 ? `, change ×${stretch}` : ''}`}
        </p>
      )}
    </div>
  );
}

function filledWith(earlierMm: readonly (number | null)[], todayMm: readonly number[]): number[] {
  return earlierMm.map((girth, rung) => girth ?? (todayMm[rung] as number));
}

function sentenceOf(visit: AnalysedVisit, analysis: PatientAnalysis): string {
  const { sinceLast } = visit;
  if (!sinceLast) return 'One ladder so far. Change shows from the second visit on.';
  if (isNoAnswer(sinceLast)) return `Not comparable with the visit before. ${sinceLast.noAnswer}`;
  return verdictSentence(sinceLast, analysis.record);
}

/** Three lines under a verdict: how sure, since when, where and by how much; without a change, how large one would have to be, and the volume. */
function ThreeLines({ visit, judged }: { visit: AnalysedVisit; judged: JudgedChange | null }) {
  const sure = judged && howSureInWords(judged);
  const lines = judged?.found
    ? [
        ['Since', whenInWords(judged.found)],
        ['Where', `${whereInWords(judged.found, judged.change.later.ladder.limb)} of girth`],
      ]
    : [
        ['Volume', volumeInWords(visit)],
        ...(judged?.smallestSaid === undefined ? [] : [['Can be told', `a change of ${pct(judged.smallestSaid)} of girth or more`]]),
      ];
  return (
    <dl className={styles.courseFacts}>
      {[...(sure ? [['How sure', capitalized(sure)]] : []), ...lines].map(([name, words]) => (
        <Fragment key={name}>
          <dt>{name}</dt>
          <dd>{words}</dd>
        </Fragment>
      ))}
    </dl>
  );
}

/** The limb's volume with its error and its own stretch of the tape. Example: `4,470 ml, give or take 143 ml, over 1½–23½ in up from the ankle crease`. */
function volumeInWords({ volume, at }: AnalysedVisit): string {
  if (isNoAnswer(volume)) return 'not known';
  const [fromMm, toMm] = [heightOnLimb(at, volume.span.fromMm), heightOnLimb(at, volume.span.toMm)];
  return `${showVolume(volume.volumeMl)}, give or take ${showVolume(REACH_95 * volume.sdMl)}, over ${stretchOnTape(fromMm, toMm, rulerOf(at))}`;
}

/** The verdicts against the baseline of the phase and the first visit of all, each where it says more than what was said before. */
function SinceBaseline({ limb, visit, analysis }: { limb: AnalysedLimb; visit: AnalysedVisit; analysis: PatientAnalysis }) {
  const { sinceLast, sinceBaseline, sinceFirst, inPhase } = visit;
  const further = sinceFirst === sinceBaseline || inPhase.baseline === limb.series.visits[0] ? null : sinceFirst;
  return (
    <>
      <Since judged={sinceBaseline} before={[sinceLast]} words={baselineInWords(inPhase, limb.series.visits[0])} analysis={analysis} />
      <Since judged={further} before={[sinceLast, sinceBaseline]} words="first visit" analysis={analysis} />
    </>
  );
}

type Judged = JudgedChange | NoAnswer | null;

function Since({
  judged,
  before,
  words,
  analysis,
}: {
  judged: Judged;
  before: readonly Judged[];
  words: string;
  analysis: PatientAnalysis;
}) {
  if (!judged || isNoAnswer(judged) || before.includes(judged)) return null;
  const { change, verdict, found } = judged;
  const said0 = before.some((one) => one && !isNoAnswer(one) && one.verdict === verdict && one.found?.part === found?.part);
  if (verdict === 'no-clear-change' || said0) return null;
  const said = [verdictSentence(judged, analysis.record), ...(found ? [courseSentence(judged)] : [])];
  return (
    <p className={styles.sinceFirst}>
      {`Since the ${words}, ${showDay(change.earlier.visit.day)}: `}
      <span className="judgement">{said.join(' ')}</span>
    </p>
  );
}

/** The mean girth over the length of the ladder; the volume itself where it does not stand above. */
function VolumeLine({ visit, isSaid }: { visit: AnalysedVisit; isSaid: boolean }) {
  const { volume, at } = visit;
  if (isNoAnswer(volume)) return <p>{volume.noAnswer}</p>;
  const { unit } = at.ladder;
  return (
    <p data-volume={volume.volumeMl.toFixed(1)}>
      {isSaid ? '' : `Volume ${volumeInWords(visit)}. `}
      {`Mean girth ${showLength(volume.meanGirthMm, unit)}\u202f${unit} over ${showLength(volume.lengthMm, unit)}\u202f${unit} of ladder.`}
    </p>
  );
}

/** Lower leg and thigh, forearm and upper arm, where the landmark between them is known. */
function Segments({ visit, analysis }: { visit: AnalysedVisit; analysis: PatientAnalysis }) {
  const { ladder, placed, visit: taped } = visit.at;
  const tape = tapeErrorOf(analysis.policy);
  const tension = taped.measurer ? tape.tensionSameMeasurer : tape.tensionOtherMeasurer;
  const known = namedSegments(placed, ladder.limb, tape, tension).flatMap(({ name, volume, part }) =>
    isNoAnswer(volume) ? [] : [`${name} ${showVolume(volume.volumeMl)}${part ? ' as far as measured' : ''}`],
  );
  return known.length > 0 ? <p className="secondary">{`${capitalized(known.join(', '))}.`}</p> : null;
}

function zeroChoiceInWords({ choice, shiftMm, by, at }: ZeroChoice, unit: LengthUnit, timeZone: string): string {
  const size = showLengthWithUnit(Math.abs(shiftMm), unit);
  const way = shiftMm > 0 ? 'towards the trunk' : 'away from the trunk';
  const read =
    choice === 'moved-back'
      ? `read with the zero moved back ${size} (it lay ${way})`
      : `kept as recorded, though it looked moved by ${size} ${way}`;
  return `Zero ${read}. Chosen by ${by}, ${showDay(todayIn(timeZone, new Date(at)))}. The figures stay as measured.`;
}

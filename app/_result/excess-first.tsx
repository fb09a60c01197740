import type { AnalysedLimb, PatientAnalysis } from '@/lib/analysis/analyse-patient';
import { reboundSince, reductionLevel } from '@/lib/analysis/reduction';
import { isNoAnswer } from '@/lib/outcome';
import { reboundSentence } from '@/lib/prompts/rules/rebound-after-reduction';
import { levelSentence } from '@/lib/prompts/rules/reduction-levelled-off';
import { excessInWords } from '@/lib/summary/excess-sentence';
import type { SeriesVisit } from '@/lib/trend/series-visit';
import { capitalized } from '@/lib/units/capitalized';
import styles from './result.module.css';

type Shown = { readonly limb: AnalysedLimb; readonly at: SeriesVisit };

/**
 * What each affected limb has over the healthy other one at a visit: the first thing that is read about swelling. Where a reduction stands is
 * said at the newest visit. Of a scar it is a line among others. Nothing where it is not defined.
 */
export function ExcessFirst({
  analysis,
  shown,
  swelling,
}: {
  readonly analysis: PatientAnalysis;
  readonly shown: readonly Shown[];
  readonly swelling: boolean;
}) {
  const said = shown.flatMap(({ limb, at }) => {
    const words = excessInWords(analysis, limb, at);
    return words ? [{ words, so: reductionSo(analysis, limb, at), key: limb.series.side + limb.series.limb }] : [];
  });
  if (said.length === 0) return null;
  return (
    <div className={styles.excessFirst} data-excess="">
      {said.map(({ words: { sentence, figures, gone, usual }, so, key }) => (
        <div key={key}>
          {swelling ? <p className="judgement prompt-sentence">{`${sentence}.`}</p> : <p>{`${sentence}, ${figures}`}</p>}
          {swelling && <p>{capitalized(figures)}</p>}
          {usual && <p>{usual}</p>}
          {gone && <p>{gone}</p>}
          {so && <p>{so}</p>}
        </div>
      ))}
    </div>
  );
}

/** Where the reduction of a limb stands, or what of the last one is back: at its newest visit. */
function reductionSo(analysis: PatientAnalysis, limb: AnalysedLimb, at: SeriesVisit): string | undefined {
  if (at !== limb.series.visits.at(-1)) return undefined;
  const level = reductionLevel(analysis, limb);
  if (level && !isNoAnswer(level)) return levelSentence(level, at.ladder.unit);
  const rebound = reboundSince(analysis, limb);
  return rebound && reboundSentence(rebound);
}

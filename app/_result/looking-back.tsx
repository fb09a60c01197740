import type { StoredAnswer } from '@/db/worklist/given-answers';
import type { AnalysedLimb, AnalysedVisit, PatientAnalysis } from '@/lib/analysis/analyse-patient';
import { isNoAnswer } from '@/lib/outcome';
import { givenSentence, lookingBackSentence } from '@/lib/summary/looking-back';
import { lookBack } from '@/lib/trend/looking-back';
import styles from './result.module.css';

type Props = {
  /** The limb as it was known at the visit, with the visit in it. */
  readonly limb: AnalysedLimb;
  readonly visit: AnalysedVisit;
  /** Everything known today. */
  readonly now: PatientAnalysis;
  /** What was stored when this state of the visit was first worked out. */
  readonly given: StoredAnswer | undefined;
};

/** Under the verdict of an earlier visit: what was said of it then, and what later visits say of it. Nothing at the newest. */
export function LookingBackLines({ limb: { series }, visit, now, given }: Props) {
  const limb = now.limbs.find((one) => one.series.limb === series.limb && one.series.side === series.side);
  const later = limb?.visits.find(({ at }) => at.visit === visit.at.visit);
  const { sinceLast } = visit;
  if (!limb || !later || !sinceLast || isNoAnswer(sinceLast)) return null;
  const earlier = limb.visits.find(({ at }) => at.visit === sinceLast.change.earlier.visit);
  const back = earlier && lookBack(limb.course, earlier.at, later.at);
  if (!back) return null;
  const said = given?.verdicts.find((one) => one.limb === series.limb && one.side === series.side && one.against === 'last');
  return (
    <p className={styles.sinceFirst}>
      {said && given ? `${givenSentence(said, given.givenOn)} ` : ''}
      {lookingBackSentence(said?.verdict ?? sinceLast.verdict, back, now.policy.alarmProbability)}
    </p>
  );
}

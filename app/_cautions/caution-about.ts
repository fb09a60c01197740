import type { PatientAnalysis } from '@/lib/analysis/analyse-patient';
import type { CautionAbout } from '@/lib/cautions/caution-card';
import { gainInWords, oneSidedGains } from '@/lib/prompts/rules/one-sided-gain';

/** What the caution cards look at: the record, the clinic's limits, the day, and the gains that the tape saw. */
export function cautionAbout(analysis: PatientAnalysis): CautionAbout {
  const { record, policy, today } = analysis;
  const seen = oneSidedGains(analysis).map((gain) => ({ limb: gain.limb, side: gain.side, words: gainInWords(gain) }));
  return { record, policy, today, seen };
}

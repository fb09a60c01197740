import type { AnalysedLimb, AnalysedVisit, PatientAnalysis } from '../analysis/analyse-patient';
import { excessGone, weightAdjusted } from '../analysis/excess-gone';
import { limbExcess } from '../analysis/limb-excess';
import { isNoAnswer } from '../outcome';
import type { Span } from '../volume/span-volume';
import { pct, reasons, round } from './document-figures';

/**
 * What the document says of an affected limb beside the other one at a visit: `excess`, and `weightAdjustedChangePct` where both are affected.
 *
 * Each is null where it is not defined, with its reason. ml and mm to 0.001, per cent to 0.001; heights above the crease.
 */
export function excessPart(analysis: PatientAnalysis, limb: AnalysedLimb, visit: AnalysedVisit) {
  const { series } = limb;
  const found = limbExcess(analysis, series, visit.at.visit);
  const weighed = weightAdjusted(analysis, limb, visit);
  const missing = { excess: found, weightAdjustedChangePct: weighed };
  const weightAdjustedChangePct = weighed === null || isNoAnswer(weighed) ? null : pct(weighed);
  if (isNoAnswer(found)) return { excess: null, weightAdjustedChangePct, reasons: reasons(missing) };
  const gone = excessGone(analysis, series, visit.at.visit);
  const { excess } = found;
  const known = isNoAnswer(gone) ? null : gone;
  return {
    excess: {
      ml: round(found.differenceMl, 3),
      sdMl: round(excess.sdMm3 / 1000, 3),
      pct: pct(found.share),
      sdPct: pct(excess.shareSd),
      affectedMl: round(found.volumeMl, 3),
      otherMl: round(found.otherMl, 3),
      spanMm: spanMm(found),
      segments: excess.segments.map(({ span, mm3, share }) => ({ spanMm: spanMm(span), ml: round(mm3 / 1000, 3), pct: pct(share) })),
      reductionPct: known && { sameDay: pct(known.sameDay), fixed: pct(known.fixed) },
      reductionSince: known ? known.since : null,
    },
    weightAdjustedChangePct,
    reasons: reasons({ ...missing, reductionPct: gone }),
  };
}

function spanMm({ fromMm, toMm }: Span): [number, number] {
  return [round(fromMm, 3), round(toMm, 3)];
}

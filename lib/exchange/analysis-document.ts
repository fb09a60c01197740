import { type AnalysedLimb, type AnalysedVisit, analysePatient, type PatientAnalysis } from '../analysis/analyse-patient';
import type { AnalysedPiece } from '../analysis/analyse-piece';
import { type LadderQuestion, recordQuestions } from '../analysis/record-questions';
import { residualVolume } from '../analysis/residual-limb';
import type { ErrorScale } from '../course-model/error-scale';
import type { Doubt } from '../ladder/doubt';
import { placeOf } from '../ladder/taped-line';
import type { Policy } from '../limits/policy';
import { isNoAnswer } from '../outcome';
import { raisePrompts } from '../prompts/decide-prompts';
import { reasonsInWords } from '../prompts/reasons-in-words';
import type { PatientRecord } from '../record/patient-record';
import type { JudgedChange } from '../trend/judged-change';
import { heightOnLimb } from '../trend/limb-series';
import type { SeriesVisit } from '../trend/series-visit';
import type { CalendarDay } from '../units/calendar-day';
import { pct, reasons, round } from './document-figures';
import { excessPart } from './excess-part';
import { measuresPart } from './measures-part';

/** Name and version of the engine that wrote a document. */
const ENGINE = 'rungwise 0.1.0';

/**
 * The document of the command line: every patient with limbs, named measures, pieces and prompts, ready for JSON.
 *
 * Figures in ml, mm and per cent, rounded to 0.001 (ml, mm), 0.001 % and 0.0001 (tightness); days as YYYY-MM-DD. Where there is no answer
 * the key is null and its reason stands in `reasons` of the same object. Heights are above the distal landmark where it is known, else
 * from the ladder's zero. `vsBaseline` is against the baseline of the visit's phase, `vsFirst` against the first visit of all. `scale` is the factor on the variance of every error, learnt from the records or given (n = 0).
 * Shape: records, policy, today, scale. Source: engine section 10.
 */
export function analysisDocument(records: readonly PatientRecord[], policy: Policy, today: CalendarDay, scale: ErrorScale) {
  return {
    engine: ENGINE,
    today,
    scale: { variance: round(scale.variance, 4), n: scale.n },
    patients: records.map((record) => patientPart(analysePatient(record, { ...policy, errorScale: scale.variance }, today))),
  };
}

function patientPart(analysis: PatientAnalysis) {
  const series = analysis.limbs.map((limb) => limb.series);
  const asked = recordQuestions(analysis.record, series, analysis.policy);
  return {
    patient: analysis.record.reference,
    limbs: analysis.limbs.map((limb) => limbPart(limb, asked, analysis)),
    ...measuresPart(analysis.trusted, analysis.policy),
    ...residualPart(analysis),
    pieces: analysis.pieces.map(piecePart),
    prompts: raisePrompts(analysis).map((prompt) => ({
      kind: prompt.rule,
      action: prompt.action,
      due: prompt.due,
      title: prompt.title,
      facts: prompt.facts,
      rule: prompt.rule,
      ruleVersion: prompt.ruleVersion,
      missing: prompt.missing,
      about: prompt.about,
    })),
  };
}

/** Volume of residual limbs with their end, of every visit that has the length; nothing where there is none. */
function residualPart({ limbs }: PatientAnalysis) {
  const residualLimbs = limbs.flatMap((limb) =>
    limb.visits.flatMap((visit) => {
      const found = residualVolume(limb, visit);
      if (!found) return [];
      const known = isNoAnswer(found) ? null : found;
      return [
        {
          day: visit.at.visit.day,
          limb: limb.series.limb,
          side: limb.series.side,
          ml: known && round(known.wholeMl, 3),
          capMl: known && round(known.capMl, 3),
          capRangeMl: known && [round(known.capLowMl, 3), round(known.capHighMl, 3)],
          words: known?.words ?? null,
          reasons: reasons({ ml: found }),
        },
      ];
    }),
  );
  return residualLimbs.length > 0 ? { residualLimbs } : {};
}

function limbPart(limb: AnalysedLimb, asked: readonly LadderQuestion[], analysis: PatientAnalysis) {
  const own = asked.filter((one) => one.limb === limb.series.limb && one.side === limb.series.side);
  const { trend } = limb;
  return {
    limb: limb.series.limb,
    side: limb.series.side,
    affected: limb.affected,
    visits: limb.visits.map((visit) => {
      const { reasons: missing, ...rest } = visitPart(visit, own);
      const { reasons: alsoMissing, ...excess } = limb.affected ? excessPart(analysis, limb, visit) : { reasons: {} };
      return { ...rest, ...excess, reasons: { ...missing, ...alsoMissing } };
    }),
    trend: isNoAnswer(trend)
      ? null
      : {
          method: trend.method,
          of: trend.of,
          visits: trend.visits,
          possible: trend.possible,
          slopePctPerYear: pct(trend.slopePerYear),
          low: pct(trend.low),
          high: pct(trend.high),
          p: trend.p === null ? null : round(trend.p, 6),
        },
    relativeVolumeChangePct: limb.relativeVolumeChange === null ? null : pct(limb.relativeVolumeChange),
    reasons: reasons({ trend }),
  };
}

function visitPart(visit: AnalysedVisit, asked: readonly LadderQuestion[]) {
  const { at, volume, sinceBaseline, sinceFirst, inPhase } = visit;
  const shift = sinceBaseline && !isNoAnswer(sinceBaseline) ? sinceBaseline.change.shift : undefined;
  const known = isNoAnswer(volume) ? null : volume;
  return {
    day: at.visit.day,
    volumeMl: known && round(known.volumeMl, 3),
    volumeSdMl: known && round(known.sdMl, 3),
    spanMm: known && [round(heightOnLimb(at, known.span.fromMm), 3), round(heightOnLimb(at, known.span.toMm), 3)],
    lengthMm: known && round(known.lengthMm, 3),
    meanGirthMm: known && round(known.meanGirthMm, 3),
    doubts: allDoubts(at, asked).map(({ kind, distanceMm, message }) => ({ kind, distanceMm: doubtHeight(at, distanceMm), message })),
    zeroShift: shift ? { mm: round(shift.mm, 2), seMm: round(shift.seMm, 2), finding: shift.finding } : null,
    phase: inPhase.phase?.kind ?? null,
    baselineDay: inPhase.baseline.visit.day,
    vsBaseline: sinceBaseline && !isNoAnswer(sinceBaseline) ? changePart(sinceBaseline) : null,
    vsFirst: sinceFirst && !isNoAnswer(sinceFirst) ? changePart(sinceFirst) : null,
    inferredLandmarks: [...at.placed.landmarks].flatMap(([landmark, placed]) => (placed.inferred ? [landmark] : [])),
    reasons: reasons({ volume, vsBaseline: sinceBaseline, vsFirst: sinceFirst }),
  };
}

/** What stands open on the ladder by itself, and what the sheet would ask beside the visit before; each question of a place once. */
function allDoubts(at: SeriesVisit, asked: readonly LadderQuestion[]): readonly Doubt[] {
  const known = new Set(at.doubts.map(({ kind, distanceMm }) => `${kind}@${distanceMm}`));
  const more = asked.filter(({ visit, doubt }) => visit === at.visit && !known.has(`${doubt.kind}@${doubt.distanceMm}`));
  return [...at.doubts, ...more.map(({ doubt }) => doubt)];
}

function doubtHeight(at: SeriesVisit, distanceMm: number | null): number | null {
  if (distanceMm === null) return null;
  return round(heightOnLimb(at, placeOf(at.ladder, distanceMm)), 3);
}

function changePart(judged: JudgedChange) {
  const { change, explained } = judged;
  const { measured } = change;
  const { fromMm, toMm } = measured.shared.earlier;
  return {
    sharedSpanMm: [round(heightOnLimb(change.earlier, fromMm), 3), round(heightOnLimb(change.earlier, toMm), 3)],
    sharedShare: round(measured.shared.share, 4),
    volumeChangePct: pct(measured.volume.ratio - 1),
    smallestRealChangePct: pct(judged.smallestRealChange),
    lengthChangePct: pct(measured.length.ratio - 1),
    girthChangePct: pct(measured.girth.ratio - 1),
    expectedGirthChangePct: explained ? pct(explained.expectedRatio - 1) : null,
    unexplainedGirthChangePct: explained ? pct(explained.unexplainedRatio - 1) : null,
    unexplainedSdPct: explained ? pct(explained.sd) : null,
    verdict: judged.verdict,
    probability: judged.probability === undefined ? null : round(judged.probability, 4),
    since: judged.found?.since ?? null,
    part: judged.found?.part ?? null,
    partChangePct: judged.found ? pct(judged.found.ratio - 1) : null,
    partSdPct: judged.found ? pct(judged.found.sd) : null,
    smallestSaidPct: judged.smallestSaid === undefined ? null : pct(judged.smallestSaid),
    realigned: change.realigned
      ? {
          volumeChangePct: pct(change.realigned.volume.ratio - 1),
          girthChangePct: pct(change.realigned.girth.ratio - 1),
          verdict: judged.realignedVerdict,
        }
      : null,
    because: reasonsInWords(judged),
  };
}

function piecePart(one: AnalysedPiece) {
  const { piece, fit, outgrow, endOfLife, orderBy, room } = one;
  const tightness = isNoAnswer(fit) ? [] : fit.places.map((place) => place.tightness);
  return {
    piece: piece.piece,
    limb: piece.limb,
    side: piece.side,
    tightnessMax: tightness.length > 0 ? round(Math.max(...tightness), 4) : null,
    tightnessMin: tightness.length > 0 ? round(Math.min(...tightness), 4) : null,
    outgrowDay: isNoAnswer(outgrow) ? null : outgrow.day,
    outgrowEarlyDay: isNoAnswer(outgrow) ? null : outgrow.earlyDay,
    endOfLifeDay: isNoAnswer(endOfLife) ? null : endOfLife,
    orderByDay: isNoAnswer(orderBy) ? null : orderBy.day,
    orderByBecause: isNoAnswer(orderBy) ? null : orderBy.because,
    allowanceMm: isNoAnswer(room) ? null : { middle: round(room.middleMm, 3), high: round(room.highMm, 3) },
    places: isNoAnswer(fit)
      ? []
      : fit.places.map((place) => ({ heightMm: round(place.heightMm, 3), tightness: round(place.tightness, 4), sd: round(place.sd, 4) })),
    reasons: reasons({ fit, outgrow, endOfLife, orderBy, room }),
  };
}

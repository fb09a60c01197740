import type { AnalysedLimb, PatientAnalysis } from '@/lib/analysis/analyse-patient';
import type { AnalysedPiece } from '@/lib/analysis/analyse-piece';
import { answerOutcomes } from '@/lib/analysis/answer-outcomes';
import { excessGone, weightAdjusted } from '@/lib/analysis/excess-gone';
import { excessOverTime } from '@/lib/analysis/excess-over-time';
import { fitHistory } from '@/lib/analysis/fit-history';
import { answersToGive } from '@/lib/analysis/given-answers';
import { limbExcess } from '@/lib/analysis/limb-excess';
import { limbStrains } from '@/lib/analysis/record-error-scale';
import { recordQuestions } from '@/lib/analysis/record-questions';
import { reboundSince, reductionLevel } from '@/lib/analysis/reduction';
import { residualVolume } from '@/lib/analysis/residual-limb';
import { daysWithout, serviceCases } from '@/lib/analysis/service-cases';
import { whatIf } from '@/lib/analysis/what-if';
import { cardStates } from '@/lib/cautions/caution-cards';
import { recordBodyDoubts } from '@/lib/doubts/record-body-doubts';
import { recordMeasureDoubts } from '@/lib/doubts/record-measure-doubts';
import { GARMENT_FORMS } from '@/lib/garment-forms/garment-catalogue';
import { buildUp } from '@/lib/garments/build-up';
import { measureFits } from '@/lib/garments/measure-fit';
import { pieceStage } from '@/lib/garments/piece-stage';
import { placesOutside } from '@/lib/garments/places-outside';
import { readingPairs } from '@/lib/garments/pressure-readings';
import { roomByPlace } from '@/lib/garments/room-by-place';
import { daysWorn, wearDays } from '@/lib/garments/wear';
import { wearInStart } from '@/lib/garments/wear-in-start';
import { pressureEstimates, wornPlaces } from '@/lib/garments/worn-fit';
import { againstRelease } from '@/lib/orders/against-release';
import { changeSinceCut, lastOfPlace } from '@/lib/orders/last-of-place';
import { missingFigures, notTaken } from '@/lib/orders/missing-figures';
import { orderDifference } from '@/lib/orders/order-difference';
import { orderQuestions } from '@/lib/orders/order-questions';
import { measuresByPart, orderedInWords, sentLadders } from '@/lib/orders/order-set';
import { figuresToSend, orderStage, piecesOfOrder, proposedOrder, sentOrder, unansweredQuestions } from '@/lib/orders/order-steps';
import { furtherRoom, previewPiece, proposedRoom } from '@/lib/orders/preview-piece';
import { sheetRows } from '@/lib/orders/printed-rows';
import { isNoAnswer } from '@/lib/outcome';
import { inputsOf, type PromptAnswer } from '@/lib/prompts/decide-prompts';
import { reasonsInWords } from '@/lib/prompts/reasons-in-words';
import { coverInWords } from '@/lib/prompts/show-figures';
import type { Order } from '@/lib/record/order';
import type { Piece, Visit } from '@/lib/record/patient-record';
import { calendarEntries } from '@/lib/schedule/calendar-entries';
import { calendarFile } from '@/lib/schedule/calendar-file';
import { dateInWords, sourceInWords } from '@/lib/schedule/date-in-words';
import { howItEnded } from '@/lib/schedule/how-it-ended';
import { outlineFor, type PatientWork, patientWork, type Written } from '@/lib/schedule/patient-work';
import { restsByKey } from '@/lib/schedule/rests-in-words';
import { stillOpen } from '@/lib/schedule/still-open';
import { girthByPlace } from '@/lib/trend/girth-by-place';
import { tapeErrorOf } from '@/lib/trend/limb-series';
import { lookBack } from '@/lib/trend/looking-back';
import { measureSeries } from '@/lib/trend/measure-series';
import { volumeOverTime } from '@/lib/trend/volume-over-time';
import { addDays, type CalendarDay } from '@/lib/units/calendar-day';
import { namedSegments } from '@/lib/volume/named-segments';

/** Everything that is said of somebody on a day, part by part, as pages, papers and files ask for it. */
export function answersOf({ analysis, ...work }: PatientWork, answers: readonly PromptAnswer[]): Readonly<Record<string, unknown>> {
  const { record, policy, today, limbs, pieces } = analysis;
  return {
    limbs: limbs.map((limb) => [limb.course, limb.trend, limb.relativeVolumeChange, limb.series, measuredOf(limb, analysis)]),
    pieces: pieces.map((one) => pieceOf(one, analysis)),
    work: [
      work,
      stillOpen({ analysis, ...work }, answers, today),
      limbs.map(({ series }) => outlineFor(series, analysis)),
      datesOf(work, answers, analysis),
    ],
    questions: [
      recordQuestions(
        record,
        limbs.map(({ series }) => series),
        policy,
      ),
      recordBodyDoubts(record, policy),
    ],
    measures: [measureSeries(record, policy), recordMeasureDoubts(record, policy)],
    orders: pieces.map(({ piece }) => orderOf(piece, analysis)),
    given: answerOutcomes(
      analysis,
      answersToGive(analysis).map((one, index) => ({ id: `given ${index}`, ...one })),
    ),
    service: [serviceCases(analysis), daysWithout(record, today), limbStrains(record, policy, 1)],
    cautions: cardStates({ record, policy, today }).map(({ card, ...state }) => [card.id, state]),
  };
}

/** The dates of a person in words, how each would have ended, and as a calendar has them: open, done yesterday, fallen away long ago. */
function datesOf(
  { dates, raised }: Pick<PatientWork, 'dates' | 'raised'>,
  answers: readonly PromptAnswer[],
  { record, policy, today }: PatientAnalysis,
) {
  const states = ['open', 'done', 'cancelled'] as const;
  const stored = dates.map(({ key, kind, day, time }, index) => {
    const changedAt = new Date(`${addDays(today, -90 - (index % 3) + 1)}T08:00:00Z`);
    const state = states[index % states.length] ?? 'open';
    return { id: key, patientId: 'p', reference: record.reference, kind, day, time: time ?? null, state, sequence: index, changedAt };
  });
  const entries = calendarEntries(stored, 'host', today, { address: 'http://host', alarmDays: 1, timeZone: 'Europe/Vienna' });
  return {
    words: dates.map((date) => [dateInWords(date), date.sources.map((source) => sourceInWords(source, policy)), howItEnded(date, record)]),
    rests: restsByKey(
      dates,
      raised,
      answers.map((one) => ({ ...one, reason: 'why' })),
      today,
    ),
    file: calendarFile(entries, 'Dates'),
  };
}

function measuredOf(limb: AnalysedLimb, analysis: PatientAnalysis) {
  const { series, visits, course } = limb;
  const { policy } = analysis;
  const byVisit = visits.map((one) => {
    const { at, volume, sinceBaseline, sinceFirst, sinceLast } = one;
    const judged = [sinceBaseline, sinceFirst, sinceLast].flatMap((since) => (since && !isNoAnswer(since) ? [since] : []));
    return {
      volume,
      since: [sinceBaseline, sinceFirst, sinceLast],
      words: judged.map(reasonsInWords),
      excess: [limbExcess(analysis, series, at.visit), excessGone(analysis, series, at.visit), weightAdjusted(analysis, limb, one)],
      stump: residualVolume(limb, one),
      segments: namedSegments(at.placed, series.limb, tapeErrorOf(policy), 0.004),
      back: visits.map((later) => lookBack(course, at, later.at)),
      girths: girthByPlace(series, policy, at),
      inPhase: one.inPhase.baseline.visit.day,
    };
  });
  return {
    byVisit,
    overTime: [volumeOverTime(series, policy), excessOverTime(analysis, limb), girthByPlace(series, policy, 'before')],
    reduced: [reductionLevel(analysis, limb), reboundSince(analysis, limb)],
  };
}

function pieceOf(one: AnalysedPiece, analysis: PatientAnalysis) {
  const { record, policy, today, pieces } = analysis;
  const { piece, fit, wear, readings } = one;
  const all = pieces.map((other) => other.piece);
  const tried = { makingDays: piece.leadDays, letOutMm: 10, nextVisit: addDays(today, 30), visitAfter: addDays(today, 90) };
  return {
    said: one,
    fitted: isNoAnswer(fit)
      ? null
      : [wornPlaces(fit, wear), roomByPlace(fit, [0.05, 0.15], 12), pressureEstimates(fit, readings, wear, policy)],
    outside: placesOutside(one),
    measures: piece.covers === 'measures' || piece.garment ? measureFits(piece, record, policy) : null,
    history: fitHistory(analysis, one),
    ways: whatIf(analysis, one, tried),
    stage: [pieceStage(piece, today), daysWorn(piece, today), wearDays(piece, all, today), readingPairs(readings, policy)],
    wearIn: [wearInStart(piece, policy, all, true), wearInStart(piece, policy, all, false), buildUp(piece, 4)],
  };
}

function orderOf(piece: Piece, analysis: PatientAnalysis) {
  const { record, policy, today, pieces } = analysis;
  const cuts = record.visits.filter(({ ladders }) => ladders.some(({ limb, side }) => limb === piece.limb && side === piece.side));
  const newest = cuts.at(-1);
  const cut = { ...piece, garment: piece.garment ?? null, ...(newest && { cutFrom: newest.day, cutFromVisitId: newest.visitId ?? null }) };
  const { garment } = piece;
  return {
    asked: [orderQuestions(record, cut, policy, today), orderQuestions(record, { ...piece, garment: garment ?? null }, policy, today)],
    release: againstRelease(piece, record, policy, today),
    missing: newest && GARMENT_FORMS.map(({ id }) => missingFigures({ form: id }, piece, newest)),
    order: garment && newest ? wholeOrder({ ...cut, garment }, newest, analysis) : null,
    stage: [piece, ...pieces.map((one) => one.piece)].map((one) => coverInWords(one.covers)),
  };
}

/** An order of a piece from its choice to its pieces and its printed rows. */
function wholeOrder(cut: Piece & Pick<Order, 'garment'>, visit: Visit, analysis: PatientAnalysis) {
  const { record, policy, today, pieces } = analysis;
  const all = pieces.map((one) => one.piece);
  const room = furtherRoom(record, cut, policy, today);
  const proposed = proposedRoom(previewPiece(record, cut, policy, today).piece);
  const choice = { ...cut, quantity: 3, heldBack: 1, reasonCode: 'worn out' as const, note: null, decided: cut.allowance };
  const first: Order = { ...proposedOrder(choice, visit.visitId ?? '', proposed, room), order: 1 };
  const before = lastOfPlace(all, first, null);
  const figures = figuresToSend(first, { ...visit, revision: 2 });
  const since = before ? changeSinceCut(analysis, before, first) : null;
  const checked = { ...first, checked: { by: 'KD', name: 'K. Doan', at: '2027-01-05T10:00:00.000Z', visitRevision: 2 } };
  const leaving = figures && { sent: figures, ordered: today, expected: addDays(today, 20), answers: [] };
  const sent = [first, checked].flatMap((one) => (leaving ? [sentOrder(one, leaving)] : []));
  const asked = orderQuestions(record, cut, policy, today);
  return {
    first,
    words: orderedInWords(first),
    open: unansweredQuestions(asked, { questions: asked.slice(1).map((one) => ({ ...one, answer: 'so', by: 'RA', at: '' })) }),
    before: before && [before.piece, since, orderDifference(before, { ...first, allowance: first.allowance.decided })],
    sent,
    notTaken: figures && notTaken(first, figures),
    rows: figures && sentLadders(figures).map((ladder) => sheetRows(ladder, since, 'places' in proposed ? proposed.places : [])),
    parts: figures?.measures && measuresByPart(figures.measures),
    pieces: sent.map((one) =>
      piecesOfOrder(
        one,
        all.map(({ piece }) => piece),
      ),
    ),
    stages: sent.map((one) => orderStage(one, all)),
  };
}

/** What is written beside a record: every other prompt answered in turn in each way, and a date moved. */
export function writtenOn({ raised, dates }: PatientWork, today: CalendarDay): Written {
  const ways = ['act', 'not-now', 'begun', 'not-for-this-patient', 'open-again'] as const;
  const answers = raised.flatMap((prompt, index): PromptAnswer[] =>
    index % 2 === 0
      ? [{ cause: prompt.cause, inputs: inputsOf(prompt), answer: ways[index % ways.length] ?? 'act', until: addDays(today, 10) }]
      : [],
  );
  const moves = dates.slice(0, 2).map(({ key, computed }, index) => ({
    ...{ key, computed, day: addDays(computed, 9 * (index + 1)), reason: 'holiday', by: 'RA', at: new Date(0) },
  }));
  return {
    answers,
    moves,
    diary: { weekdays: [1, 2, 3, 4, 5], closed: [{ from: today, until: addDays(today, 3), why: 'closed' }], capacity: null },
  };
}

/** The work of a person on a day, before and after something is written beside the record. */
export function worksOn(record: Parameters<typeof patientWork>[0], policy: Parameters<typeof patientWork>[2], today: CalendarDay) {
  const asIs = patientWork(record, { answers: [], moves: [] }, policy, today);
  const written = writtenOn(asIs, today);
  return { asIs, written, answered: patientWork(record, written, policy, today) };
}

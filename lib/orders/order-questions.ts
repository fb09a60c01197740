import type { PatientAnalysis } from '../analysis/analyse-patient';
import { type Stop, stopsOn, unaskedFor, yesAnswers } from '../cautions/hold';
import { recordMeasureDoubts } from '../doubts/record-measure-doubts';
import { limbInWords } from '../ladder/limb';
import type { ComparedWith } from '../limits/limit-in-words';
import type { Policy } from '../limits/policy';
import { isNoAnswer } from '../outcome';
import { partOfSideInWords } from '../parts/measure';
import { growthSinceCut } from '../prompts/rules/growth-since-cut';
import { movedZero } from '../prompts/rules/moved-zero';
import { weightSinceCut } from '../prompts/rules/weight-since-cut';
import { type GarmentSet, garmentSet, isOfSet } from '../record/garment-needs';
import { affectedInWords, isAffected, type LimbSide, limbOf, type PatientRecord, type Visit } from '../record/patient-record';
import { visitCutFrom } from '../record/visit-cut-from';
import { type CalendarDay, daysBetween, showDay } from '../units/calendar-day';
import { FIGURES_MISSING, missingFigures } from './missing-figures';
import { type OrderCut, previewPiece } from './preview-piece';

/**
 * A question against an order, to be answered in words before it is sent; the limit it stands on, where there is one. A `stop` is a caution
 * that holds the order until it is answered anew or lifted by name, reason and the prescriber's word.
 */
export type OrderQuestion = { readonly key: string; readonly message: string; readonly limit: ComparedWith | null; readonly stop?: true };

/**
 * Everything that stands open against an order cut from a ladder: a limb that is not among the affected ones, the ladder's age, a newer
 * ladder, doubts kept open on it, a zero that looks moved, weight or growth since it was taped, cautions not answered for this pressure and side, a caution that stands or says stop,
 * a cover that the ladder does not reach. Of a set, what is open on every ladder and named measure of it, and what of it is missing. Of a garment made to named measures alone the same of its measures.
 *
 * Questions, never refusals: an order may leave with each answered, a stop lifted as `hold` has it. The key of a question changes with the data behind it.
 * Shape: a record, the cut, the policy, today; questions in the order of the list above. Source: LIMITS; common practice.
 * Example: a ladder of 12 August ordered on 25 November with a limit of 42 days is asked about.
 */
export function orderQuestions(record: PatientRecord, cut: OrderCut, policy: Policy, today: CalendarDay): OrderQuestion[] {
  const { analysis, piece } = previewPiece(record, cut, policy, today);
  const byMeasures = cut.covers === 'measures';
  const own = limbOf(cut);
  const limb = limbInWords(cut.limb, cut.side);
  const series = analysis.limbs.find((one) => one.series.limb === cut.limb && one.series.side === cut.side)?.series;
  const taped = series && !byMeasures ? visitCutFrom(series.visits, cut) : undefined;
  const set = cut.garment ? garmentSet(cut.garment, cut) : { ladders: own ? [own] : [], measures: [] };
  const [measuredAt, newestDay] = byMeasures ? measuredOn(record, set, cut) : [taped?.visit, series?.visits.at(-1)?.visit.day];
  if (!measuredAt)
    return [
      byMeasures
        ? question('measures-missing', `No named measure of this garment of ${showDay(cut.cutFrom)} is on record.`)
        : question('ladder-missing', `No ladder of the ${limb} of ${showDay(cut.cutFrom)} is on record.`),
    ];
  const meant = byMeasures ? partOfSideInWords(set.measures[0]?.part ?? 'trunk', cut.side) : limb;
  const [figures, older] = byMeasures ? ['measures', 'are the older measures'] : ['ladder', 'is the older ladder'];
  const questions: OrderQuestion[] = [];
  const liesOnPart = set.measures.some(({ part, side }) => record.affectedParts?.some((one) => one.part === part && one.side === side));
  if (record.affected.length > 0 && !liesOnPart && !set.ladders.some((one) => isAffected(record, one.limb, one.side)))
    questions.push(
      question(
        `side ${cut.side} ${cut.limb}`,
        `The ${meant} is not among the affected limbs (${affectedInWords(record)}): is ${byMeasures ? 'it' : 'this limb'} meant?`,
      ),
    );
  const age = daysBetween(cut.cutFrom, today);
  if (age > policy.orderLadderDays)
    questions.push(
      question(
        `ladder-old ${cut.cutFrom}`,
        byMeasures
          ? `The measures of ${showDay(cut.cutFrom)} are ${age} days old on ${showDay(today)}; new ones are asked for after ${policy.orderLadderDays} days (Limits).`
          : `The ladder of ${showDay(cut.cutFrom)} is ${age} days old on ${showDay(today)}; a new one is asked for after ${policy.orderLadderDays} days (Limits).`,
        'orderLadderDays',
      ),
    );
  if (newestDay && newestDay > cut.cutFrom)
    questions.push(question(`newer-${figures} ${newestDay}`, `The ${meant} was measured again on ${showDay(newestDay)}: ${older} meant?`));
  if (taped) questions.push(...doubtQuestions(taped, ''));
  const others = furtherTaped(analysis, set, cut);
  for (const { limb: kind, side, at } of others) questions.push(...doubtQuestions(at, limbInWords(kind, side)));
  questions.push(...measureQuestions(analysis.trusted, set, measuredAt, policy));
  const newestOfSet =
    taped && series?.visits.at(-1) === taped
      ? [cut, ...others.filter(({ isNewest }) => isNewest)]
      : others.filter(({ isNewest }) => isNewest);
  if (newestOfSet.length > 0)
    for (const prompt of movedZero.apply(analysis))
      if (newestOfSet.some(({ limb: kind, side }) => prompt.about.limb?.limb === kind && prompt.about.limb.side === side))
        questions.push(
          question(`moved-zero ${prompt.inputs}`, `The ladder’s zero is not settled: ${prompt.facts.join(' ')}`, 'shiftAskMm'),
        );
  for (const rule of [weightSinceCut, growthSinceCut])
    for (const prompt of rule.apply(analysis))
      questions.push(question(`${rule.id} ${prompt.inputs}`, `Since that ladder: ${prompt.facts.join(' ')}`, prompt.limits[0] ?? null));
  if (record.cautions) questions.push(...cautionQuestions({ ...record, cautions: record.cautions }, cut, policy, today));
  const missing = cut.garment ? missingFigures(cut.garment, cut, measuredAt) : [];
  if (missing.length > 0)
    questions.push(
      question(
        `${FIGURES_MISSING} ${cut.garment?.form} ${measuredAt.day} ${missing.join('; ')}`,
        `It covers more than was measured: ${showDay(measuredAt.day)} has no ${missing.join('; no ')}. Say why it may leave without.`,
      ),
    );
  if (isNoAnswer(piece.fit) && !byMeasures)
    questions.push(question(`cover ${cut.cutFrom}`, `The cover cannot be placed on this ladder: ${piece.fit.noAnswer}`));
  return questions;
}

/** The visit whose named measures a garment is made to, and the newest day on which one of them was taken. */
function measuredOn(record: PatientRecord, set: GarmentSet, cut: OrderCut): readonly [Visit | undefined, CalendarDay | undefined] {
  const measured = record.visits.filter(({ measures }) => measures?.some((taken) => isOfSet(set, taken)));
  const at = visitCutFrom(
    measured.map((visit) => ({ visit })),
    cut,
  );
  return [at?.visit, measured.at(-1)?.day];
}

type Taped = PatientAnalysis['limbs'][number]['series']['visits'][number];

/** The further ladders of a set at the visit the order is made to, and whether each is the newest of its limb. */
function furtherTaped(analysis: PatientAnalysis, set: GarmentSet, cut: OrderCut): (LimbSide & { at: Taped; isNewest: boolean })[] {
  return set.ladders.slice(1).flatMap(({ limb, side }) => {
    const visits = analysis.limbs.find(({ series }) => series.limb === limb && series.side === side)?.series.visits ?? [];
    const at = visitCutFrom(visits, cut);
    return at ? [{ limb, side, at, isNewest: visits.at(-1) === at }] : [];
  });
}

/** What is open on one ladder; a further one of the set says of which limb it speaks. */
function doubtQuestions({ doubts, visit }: Taped, limb: string): OrderQuestion[] {
  return doubts.map((doubt) =>
    question(
      `doubt ${limb && `${limb} `}${doubt.kind}@${doubt.distanceMm ?? 'whole'} ${visit.day}`,
      `Asked about and not settled${limb && `, ${limb}`}: ${doubt.message}`,
      'readingSdMm',
    ),
  );
}

/** What is open on the named measures that the garment is made to. */
function measureQuestions(record: PatientRecord, set: GarmentSet, visit: Visit, policy: Policy): OrderQuestion[] {
  const own = (visit.measures ?? []).filter((taken) => isOfSet(set, taken));
  if (own.length === 0) return [];
  const doubts = recordMeasureDoubts(record, policy);
  return own.flatMap((taken) =>
    (doubts.get(taken) ?? []).map(({ kind, message }) =>
      question(`doubt ${taken.side} ${taken.measure} ${kind} ${taken.length.nm}`, `Asked about and not settled: ${message}`),
    ),
  );
}

function cautionQuestions(
  record: PatientRecord & { readonly cautions: NonNullable<PatientRecord['cautions']> },
  cut: OrderCut,
  policy: Policy,
  today: CalendarDay,
): OrderQuestion[] {
  const piece = { limb: cut.limb, side: cut.side, pressureMmHg: cut.garment?.pressure?.highMmHg ?? null };
  const unasked = unaskedFor({ record, policy, today }, piece, policy.orderAskDays);
  const stops = stopsOn(record.cautions, piece);
  const asks = yesAnswers(record.cautions).filter(({ answer }) => !stops.some(({ card }) => card === answer.card));
  const named =
    record.cautions.length === 0 ? 'No caution was ever asked about this patient.' : `Not answered for this order: ${unasked.join('; ')}.`;
  return [
    ...(unasked.length > 0
      ? [question(`cautions-unasked ${unasked.join(', ')}`, `${named} Ask them first, or say here why not.`, 'orderAskDays')]
      : []),
    ...asks.map(({ answer: { card: id, cardVersion, day, words }, card }) =>
      question(
        `caution ${id}/${cardVersion} ${day} ${words ?? ''}`.trim(),
        `${card?.title ?? id}, answered “yes” on ${showDay(day)}${words ? `: ${words}` : ''}. ${card?.ifPresent ?? ''}`.trim(),
      ),
    ),
    ...stops.map(({ key, message }) => ({ ...question(key, message), stop: true as const })),
  ];
}

/** A stop of an order as the boxes that lift it show it. */
export function asStop({ key, message }: OrderQuestion): Stop {
  return { key, message, card: '', title: message.split(':')[0] ?? '' };
}

function question(key: string, message: string, limit: ComparedWith | null = null): OrderQuestion {
  return { key, message, limit };
}

import type { FitToday } from '../../garments/fit-today';
import { bodyAt } from '../../growth/body-at';
import { bodyChange, expectedGirthAt } from '../../growth/body-change';
import { limbInWords } from '../../ladder/limb';
import { isNoAnswer } from '../../outcome';
import { anatomyOf } from '../../trend/anatomy-of';
import { type CalendarDay, daysBetween, showDay } from '../../units/calendar-day';
import { nextIsComing } from '../next-is-coming';
import type { Rule } from '../prompt';
import { pieceInWords, signedPct } from '../show-figures';

/**
 * Growth since the cut-from ladder → remeasure. Expected girth up by the clinic's limit (2 %) anywhere along the piece, or its far end
 * expected to drift by the clinic's share (4 %) of the covered length, from height and weight since the day the piece was cut from. Taped again on or after that day, the
 * tape speaks too: the prompt stands unless both girth and length were taped so small that the limits lie outside their 90 % range.
 */
export const growthSinceCut: Rule = {
  id: 'growth-since-cut',
  version: 4,
  apply: ({ trusted: record, pieces, policy }) =>
    pieces.flatMap(({ piece, fit, inUse }) => {
      if (!inUse || isNoAnswer(fit) || !fit.cut.visit.growing) return [];
      const cut = fit.cut.visit;
      const measured = record.visits.filter((visit) => visit.height && visit.day > cut.visit.day).at(-1);
      if (!measured || nextIsComing(piece, pieces, measured.day)) return [];
      const now = bodyAt(record.visits, measured.day, true);
      const body = bodyChange(cut.body, now, cut.ladder.limb, true, daysBetween(cut.visit.day, measured.day));
      if (body.modelSd === undefined) return [];
      const place = anatomyOf(cut);
      const girth = Math.max(...fit.places.map((one) => expectedGirthAt(body, cut.ladder.limb, true, place(one.placeMm)))) - 1;
      const driftMm = (fit.cut.toMm - fit.cut.fromMm) * (body.expectedLength.ratio - 1);
      const mostDriftMm = (policy.lengthDriftPct / 100) * (fit.cut.toMm - fit.cut.fromMm);
      const byGirth = girth * 100 >= policy.growthGirthPct && !tapedSmaller(fit, measured.day, policy.growthGirthPct / 100);
      const byLength = driftMm >= mostDriftMm && !tapedShorter(fit, measured.day, mostDriftMm);
      if (!byGirth && !byLength) return [];
      const height = `Height ${signedPct(body.heightRatio - 1)}${body.missing.includes('weight') ? '' : `, weight ${signedPct(body.weightRatio - 1)}`} from ${showDay(cut.visit.day)} to ${showDay(measured.day)}.`;
      const taped = fit.latest.visit.day > cut.visit.day;
      return [
        {
          action: 'remeasure' as const,
          due: measured.day,
          title: `Consider a remeasure for the ${pieceInWords(piece)}: growth since it was cut.`,
          facts: [
            height,
            `Girth expected ${signedPct(girth)} at most, length ${signedPct(body.expectedLength.ratio - 1)}.`,
            taped
              ? `Measured since, on ${showDay(fit.latest.visit.day)}: girth ${signedPct(largestGirthChange(fit))} at most; that ladder can serve.`
              : `Not measured since ${showDay(cut.visit.day)}.`,
          ],
          figures: [
            { value: signedPct(body.heightRatio - 1), label: `height since ${showDay(cut.visit.day)}` },
            ...(body.missing.includes('weight') ? [] : [{ value: signedPct(body.weightRatio - 1), label: 'weight, same days' }]),
            { value: signedPct(girth), label: 'girth expected, at most' },
            { value: signedPct(body.expectedLength.ratio - 1), label: 'length expected' },
          ],
          missing: body.missing.map((figure) => `No ${figure} on record near one of the days.`),
          limits: ['growthGirthPct' as const, 'lengthDriftPct' as const],
          cause: `${limbInWords(piece.limb, piece.side)}: size`,
          about: { limb: { limb: piece.limb, side: piece.side }, piece: piece.piece },
          inputs: `${piece.piece} ${cut.visit.day} ${measured.day} ${girth.toFixed(4)}`,
        },
      ];
    }),
};

/** One-sided 90 % point of the normal distribution. */
const NINETY = 1.2816;

/** Largest change of girth along the piece by the tape, as a share. */
function largestGirthChange(fit: FitToday): number {
  return Math.max(...fit.places.map((place) => place.evenedRatio)) - 1;
}

function tapedSmaller({ latest, change, places }: FitToday, measuredOn: CalendarDay, limit: number): boolean {
  if (!change || latest.visit.day < measuredOn) return false;
  return places.every((place) => Math.log(place.evenedRatio) + NINETY * place.evenedSd < Math.log(1 + limit));
}

function tapedShorter({ latest, change, lengthDriftMm, lengthDriftSdMm }: FitToday, measuredOn: CalendarDay, limitMm: number): boolean {
  if (!change || latest.visit.day < measuredOn) return false;
  return lengthDriftMm + NINETY * lengthDriftSdMm < limitMm;
}

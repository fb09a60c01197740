import { garmentSet } from '../../record/garment-needs';
import { addDays, daysBetween, showDay } from '../../units/calendar-day';
import type { Rule } from '../prompt';
import { pieceInWords } from '../show-figures';

/** Below this age a hand or foot grows out of a piece within months. Source: Snyder 1977, growth a year by band of age. */
const SMALL_CHILD_YEARS = 9;

/** A small child in a glove or foot piece whose hand or foot was not measured for the clinic's days (91) → measure it. */
export const childPartNotMeasured: Rule = {
  id: 'child-part-not-measured',
  version: 1,
  apply: ({ pieces, record, policy, today }) =>
    daysBetween(record.born, today) >= SMALL_CHILD_YEARS * 365.25
      ? []
      : pieces.flatMap(({ piece, inUse }) => {
          if (!inUse || !piece.garment || !piece.firstWorn) return [];
          const parts = new Map(
            garmentSet(piece.garment, piece)
              .measures.filter(({ part }) => part === 'hand' || part === 'foot')
              .map(({ part, side }) => [`${side} ${part}`, { part, side }] as const),
          );
          return [...parts].flatMap(([words, { part, side }]) => {
            const own = record.visits.filter((visit) => visit.measures?.some((one) => one.part === part && one.side === side));
            const since = own.at(-1)?.day;
            const due = since && addDays(since, policy.childPartDays);
            if (!since || !due || today < due) return [];
            return [
              {
                action: 'remeasure' as const,
                due,
                title: `Consider measuring the ${words} for the ${pieceInWords(piece)}.`,
                facts: [`Measured last on ${showDay(since)}; a small child’s ${part} grows out of a piece within months.`],
                missing: [],
                limits: ['childPartDays' as const],
                cause: `${words}: measure`,
                about: { limb: { limb: piece.limb, side: piece.side }, piece: piece.piece },
                inputs: `${words} ${since}`,
              },
            ];
          });
        }),
};

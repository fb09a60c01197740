import { limbInWords } from '../../ladder/limb';
import { showDay } from '../../units/calendar-day';
import type { Rule } from '../prompt';

/** Tape doubtful → repeat the reading: the newest ladder of a limb has rungs that were asked about and not kept. */
export const doubtfulReadings: Rule = {
  id: 'doubtful-readings',
  version: 1,
  apply: ({ limbs }) =>
    limbs.flatMap(({ series }) => {
      const newest = series.visits.at(-1);
      if (!newest || newest.doubts.length === 0) return [];
      const limb = limbInWords(series.limb, series.side);
      return [
        {
          action: 'repeat-reading' as const,
          due: newest.visit.day,
          title: `Consider taping ${newest.doubts.length === 1 ? 'one place' : `${newest.doubts.length} places`} of the ${limb} again.`,
          facts: [...newest.doubts.slice(0, 4).map((doubt) => doubt.message), `Ladder of ${showDay(newest.visit.day)}.`],
          missing: [],
          limits: ['readingSdMm' as const],
          cause: `${limb}: reading`,
          about: { limb: { limb: series.limb, side: series.side } },
          inputs: `${newest.visit.day} ${newest.doubts.map((doubt) => `${doubt.kind}@${doubt.distanceMm}`).join(' ')}`,
        },
      ];
    }),
};

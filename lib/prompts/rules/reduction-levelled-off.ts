import { reductionLevel } from '../../analysis/reduction';
import { limbInWords } from '../../ladder/limb';
import { isNoAnswer } from '../../outcome';
import { showDay } from '../../units/calendar-day';
import { showLengthWithUnit } from '../../units/show-length';
import type { Rule } from '../prompt';
import { signedPct } from '../show-figures';

/** The reduction of a limb has levelled off → consider measuring it for its garment. */
export const reductionLevelledOff: Rule = {
  id: 'reduction-levelled-off',
  version: 1,
  apply: (analysis) =>
    analysis.limbs.flatMap((limb) => {
      const level = reductionLevel(analysis, limb);
      if (!level || isNoAnswer(level) || !level.levelled) return [];
      const { limb: kind, side } = limb.series;
      const unit = limb.series.visits.at(-1)?.ladder.unit ?? 'cm';
      const words = limbInWords(kind, side);
      const [since, day] = [showDay(level.since), showDay(level.day)];
      return [
        {
          action: 'remeasure' as const,
          due: level.day,
          title: `Consider measuring the ${words} for its garment: the reduction has levelled off.`,
          facts: [
            `Volume ${signedPct(level.volumeShare)} from ${since} to ${day}; the largest change of girth at one place ${showLengthWithUnit(level.girthMm, unit)}.`,
            'First look: skin closed, no infection, no new cause of swelling, bandage off for less than an hour.',
          ],
          figures: [{ value: signedPct(level.volumeShare), label: `volume since ${since}` }],
          missing: [],
          limits: [
            'levelledOffVisits',
            'levelledOffDays',
            kind === 'arm' ? 'levelledOffArmPct' : 'levelledOffLegPct',
            'levelledOffGirthMm',
          ],
          cause: `${words}: reduction levelled off`,
          about: { limb: { limb: kind, side } },
          inputs: `${level.since} ${level.day} ${level.volumeShare.toFixed(4)}`,
        },
      ];
    }),
};

import { type ReductionLevel, reductionLevel } from '../../analysis/reduction';
import { limbInWords } from '../../ladder/limb';
import { isNoAnswer } from '../../outcome';
import { showDay } from '../../units/calendar-day';
import type { LengthUnit } from '../../units/length';
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
      const since = showDay(level.since);
      return [
        {
          action: 'remeasure' as const,
          due: level.day,
          title: `Consider measuring the ${words} for its garment: the reduction has levelled off.`,
          facts: [
            levelSentence(level, unit),
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

/**
 * Where a reduction stands, in one sentence. Example: `Reduction has levelled off: volume −0.2 % from 2 Mar 2026 to 6 Mar 2026, girth at one
 * place by 3 mm at most.`
 */
export function levelSentence({ levelled, volumeShare, girthMm, since, day }: ReductionLevel, unit: LengthUnit): string {
  const girth = `girth at one place by ${showLengthWithUnit(Math.abs(girthMm), unit)} at most`;
  const figures = `volume ${signedPct(volumeShare)} from ${showDay(since)} to ${showDay(day)}, ${girth}`;
  return `Reduction ${levelled ? 'has levelled off' : 'has not levelled off'}: ${figures}.`;
}

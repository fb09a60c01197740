import type { AnalysedLimb } from '@/lib/analysis/analyse-patient';
import { isNoAnswer } from '@/lib/outcome';
import { inHundred, partInWords } from '@/lib/prompts/change-in-words';
import { type DatedVolume, volumeOfCourse } from '@/lib/trend/volume-over-time';
import type { VolumeLine } from './volume-chart';

/** What the joint model adds to a limb's measured volumes: its own line, and the change that is said. */
export function courseLine(limb: AnalysedLimb, points: readonly DatedVolume[]): Pick<VolumeLine, 'course' | 'step'> {
  return { course: volumeOfCourse(limb.course, points), step: stepOf(limb) };
}

/** The change that is said at the newest visit, against its baseline or else the first visit, with how sure it is. */
function stepOf({ visits }: AnalysedLimb): VolumeLine['step'] {
  const newest = visits.at(-1);
  if (!newest) return null;
  for (const judged of [newest.sinceBaseline, newest.sinceFirst])
    if (judged && !isNoAnswer(judged) && judged.found && judged.probability !== undefined) {
      const { before, since } = judged.found;
      const where = partInWords(judged.found);
      return {
        before,
        since,
        words: `${judged.found.ratio > 1 ? 'larger' : 'smaller'}${where ? ` ${where}` : ''}, ${inHundred(judged.probability)}`,
      };
    }
  return null;
}

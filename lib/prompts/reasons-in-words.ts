import { shiftInWords } from '../alignment/shift-in-words';
import { REACH_95 } from '../statistics/reach-95';
import type { JudgedChange } from '../trend/judged-change';
import type { Confounder } from '../trend/verdict';
import { showDay } from '../units/calendar-day';
import { courseSentence, smallestInWords } from './change-in-words';
import { pct, signedPct } from './show-figures';

const CONFOUNDERS: Readonly<Record<Confounder, string>> = {
  'moved-zero': 'As recorded and with the zero moved back the two readings say different things.',
  posture: 'Measured in another posture than before.',
  'time-of-day':
    'Measured at another time of the day, further apart than the clinic’s limit; a leg alone changes by about 5\u202f% between morning and evening.',
  'other-measurer': 'Measured by another or an unknown measurer, and the change is below what two measurers differ by.',
  'missing-height': 'A child’s growth cannot be taken out without height on both days.',
  'little-shared-span': 'The two ladders share less of the limb than a verdict needs.',
  'doubtful-rungs': 'The verdict hangs on a reading that is still in doubt.',
  'doubtful-body': 'A height or weight that the verdict needs looks odd and nobody has kept it.',
  'sides-swapped': 'Left and right of one of the visits look changed round, and nobody has kept it so.',
  'other-unit': 'The girths read like the other unit.',
  'landmarks-disagree': 'The landmarks lie further from each other, or nearer, than at the visit compared with: one may be misread.',
};

const NOT_ON_RECORD = {
  posture:
    'Posture is not on record at both visits; another posture would change girth by 1–3\u202f% by itself, and that is not in the range.',
  'time-of-day':
    'The hour is not on record at both visits; a leg is up to 5\u202f% of volume larger in the evening, and that is not in the range.',
} as const;

/**
 * The figures and reasons behind a verdict, one sentence each: what was measured, what explains it, what remains, what stands in the way.
 *
 * Shape: a judged change; sentences with units and days, in the order a reader needs them.
 */
export function reasonsInWords(judged: JudgedChange): string[] {
  const { change, explained } = judged;
  const { measured, body } = change;
  const said = [volumeSentence(judged)];
  if (change.earlier.growing) said.push(`Length ${signedPct(measured.length.ratio - 1)}, girth ${signedPct(measured.girth.ratio - 1)}.`);
  if (explained) {
    said.push(
      `Girth ${signedPct(measured.girth.ratio - 1)}, expected ${signedPct(explained.expectedRatio - 1)} from ${witnesses(judged)}.`,
    );
    said.push(
      `Mean girth of the whole ${change.later.ladder.limb} beyond what is expected, if it changed: ${signedPct(explained.unexplainedRatio - 1)}, give or take ${pct(REACH_95 * explained.sd)}, by all visits up to the day.`,
    );
  }
  const course = courseSentence(judged);
  if (course) said.push(course);
  const smallest = smallestInWords(judged);
  if (smallest) said.push(smallest);
  for (const unknown of judged.notOnRecord) said.push(NOT_ON_RECORD[unknown]);
  for (const figure of body.missing) said.push(`No ${figure} on record near one of the days.`);
  if (change.alignment.inferred) said.push('A landmark was inferred from another visit.');
  if (change.shift?.finding) said.push(shiftInWords(change.shift, change.later.ladder.unit));
  const inOtherUnit = judged.confounders.includes('other-unit');
  // Girths read in the wrong unit are off by more than any two measurers differ by.
  for (const confounder of judged.confounders) if (!(inOtherUnit && confounder === 'other-measurer')) said.push(CONFOUNDERS[confounder]);
  return said;
}

/**
 * The reasons that a result does not say already: above them stand the verdict (`verdictSentence`), how sure it is, and where it changed and since when or, of no
 * change, the smallest that would show.
 *
 * Shape: a judged change; sentences as in `reasonsInWords`, each of them further. Example: what was expected, from what, and what is left of the whole limb.
 */
export function reasonsBesideVerdict(judged: JudgedChange): string[] {
  const said = [
    courseSentence(judged),
    ...(judged.found ? [] : [smallestInWords(judged)]),
    ...(isByTape(judged) ? [volumeSentence(judged)] : []),
  ];
  return reasonsInWords(judged).filter((reason) => !said.includes(reason));
}

/** Whether a verdict of no clear change is that of the tape alone: volume, and the least that could be told from its error. */
export function isByTape({ verdict, change, smallestRealChange }: JudgedChange): boolean {
  return verdict === 'no-clear-change' && Math.abs(change.measured.volume.ratio - 1) <= smallestRealChange;
}

function volumeSentence({ change, smallestRealChange }: JudgedChange): string {
  const days = `from ${showDay(change.earlier.visit.day)} to ${showDay(change.later.visit.day)}`;
  return `Volume ${signedPct(change.measured.volume.ratio - 1)} ${days}; a change under ${pct(smallestRealChange)} cannot be told from tape error.`;
}

function witnesses(judged: JudgedChange): string {
  const { body, earlier, later } = judged.change;
  const share = judged.explained?.otherLimbShare ?? 0;
  const sources: string[] = [];
  if (body.modelSd !== undefined && body.missing.length === 0) sources.push(earlier.growing ? 'height and weight' : 'weight');
  else if (body.modelSd !== undefined && earlier.growing) sources.push('height');
  if (share > 0.05) sources.push('the other limb');
  const ages = [earlier.body.weightKg, later.body.weightKg].filter((figure) => figure && figure.daysAway > 0);
  const aged = ages.length > 0 ? ` (weight ${ages.map((figure) => `${figure?.daysAway} days away`).join(' and ')})` : '';
  return (sources.join(' and ') || 'nothing on record') + aged;
}

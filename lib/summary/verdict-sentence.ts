import { shiftInWords } from '../alignment/shift-in-words';
import { limbInWords } from '../ladder/limb';
import { partInWords } from '../prompts/change-in-words';
import { isByTape } from '../prompts/reasons-in-words';
import { pct, signedPct } from '../prompts/show-figures';
import type { PatientRecord } from '../record/patient-record';
import { REACH_95 } from '../statistics/reach-95';
import type { JudgedChange } from '../trend/judged-change';
import { capitalized } from '../units/capitalized';

/**
 * A verdict as one sentence for the therapist: what the limb did, and the figure that decides.
 *
 * Says what was measured, never what it means for health. Shape: a judged change and the record; one or two short sentences.
 * Example: "The right leg has grown as much as her height and weight explain."
 */
export function verdictSentence(judged: JudgedChange, record: PatientRecord): string {
  const { change } = judged;
  const { ladder } = change.later;
  const limb = limbInWords(ladder.limb, ladder.side);
  const whose = record.sex === 'F' ? 'her' : record.sex === 'M' ? 'his' : 'their';
  const volume = change.measured.volume.ratio - 1;
  switch (judged.verdict) {
    case 'no-clear-change':
      return isByTape(judged)
        ? `No clear change: volume ${signedPct(volume)}; a change under ${pct(judged.smallestRealChange)} cannot be told from tape error.`
        : `No clear change beyond what is expected: girth ${beyond(judged)}.`;
    case 'as-expected':
      return change.earlier.growing
        ? `The ${limb} has ${volume > 0 ? 'grown' : 'changed'} as much as ${whose} height and weight explain.`
        : `The ${limb} has become ${volume > 0 ? 'larger' : 'smaller'} as much as ${explainer(judged, whose)} explains.`;
    case 'more-than-expected':
      return `${subject(judged, limb)} ${isOrMayBe(judged)} larger than ${explainer(judged, whose)} explains: girth ${there(judged)}.`;
    case 'less-than-expected':
      return `${subject(judged, limb)} ${isOrMayBe(judged)} smaller than ${explainer(judged, whose)} explains: girth ${there(judged)}.`;
    case 'cannot-tell':
      return `Cannot tell. ${cannotTell(judged)}`;
  }
}

/** `The left leg`, or the part of it that changed: `Below the knee the left leg`. */
function subject({ found }: JudgedChange, limb: string): string {
  const part = found && partInWords(found);
  return part ? `${capitalized(part)} the ${limb}` : `The ${limb}`;
}

/** A change that is said though it is no more than possible is not put as a fact; the bound is that of “likely” in `howSureInWords`. */
function isOrMayBe({ probability }: JudgedChange): string {
  return probability !== undefined && Math.round(probability * 100) < 66 ? 'may be' : 'is';
}

/** How much, in the part that changed. */
function there({ found }: JudgedChange): string {
  return found ? `${signedPct(found.ratio - 1)}, give or take ${pct(REACH_95 * found.sd)}` : 'unknown';
}

function beyond(judged: JudgedChange): string {
  const { explained } = judged;
  return explained ? `${signedPct(explained.unexplainedRatio - 1)}, give or take ${pct(REACH_95 * explained.sd)}` : 'unknown';
}

/** In the singular, so that one verb serves every witness. */
function explainer(judged: JudgedChange, whose: string): string {
  const { change, explained } = judged;
  if (explained && explained.otherLimbShare > 0.5) return `the other ${change.later.ladder.limb}`;
  if (change.earlier.growing) return `${whose} growth`;
  return change.body.missing.includes('weight') ? 'anything on record' : `${whose} weight`;
}

function cannotTell(judged: JudgedChange): string {
  const { change, confounders } = judged;
  if (confounders.includes('other-unit') || confounders.includes('moved-zero')) {
    return change.shift ? shiftInWords(change.shift, change.later.ladder.unit) : '';
  }
  if (confounders.includes('landmarks-disagree')) return 'The landmarks do not lie as they did; one may be misread.';
  if (confounders.includes('doubtful-rungs')) return 'It hangs on a reading that is still in doubt.';
  if (confounders.includes('sides-swapped')) return 'Left and right look changed round at one of the visits.';
  if (confounders.includes('doubtful-body')) return 'It hangs on a height or weight that looks odd and nobody has kept.';
  if (confounders.includes('little-shared-span')) return 'The two ladders share too little of the limb.';
  if (confounders.includes('missing-height')) return 'Growth cannot be taken out without height on both days.';
  if (confounders.includes('posture')) return `Measured in another posture, and girth is ${beyond(judged)}.`;
  if (confounders.includes('time-of-day')) return `Measured at another time of day, and girth is ${beyond(judged)}.`;
  return `Measured by another measurer, and girth is ${beyond(judged)}.`;
}

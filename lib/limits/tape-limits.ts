import { type Limit, limit } from './limit';

/** Limits of the tape and of what counts as a change. */
export const TAPE_LIMITS = {
  readingSdMm: limit(
    3,
    'mm',
    'clinic default',
    'Girths by one measurer differ by 0.2–0.5 cm, one standard deviation (from memory of anthropometry manuals).',
    'Spread of one girth reading about the true girth',
  ),
  tensionSameSd: limit(
    0.004,
    'share',
    'clinic default',
    'Standard error of leg volume 1.2–1.4 % by one measurer (Lymphat Res Biol 2022, doi 10.1089/lrb.2022.0032).',
    'Spread of tape tension from visit to visit, same measurer',
  ),
  tensionOtherSd: limit(
    0.01,
    'share',
    'clinic default',
    'Standard error about 2.5 % when the measurer changes; one measurer agrees better than two (Deltombe 2007, Lymphology).',
    'Spread of tape tension from visit to visit, other or unknown measurer',
  ),
  placementSdMm: limit(
    5,
    'mm',
    'clinic default',
    'How far apart the same zero or landmark is put on the skin from visit to visit.',
    'Spread of placing the zero or a landmark',
  ),
  alarmProbability: limit(
    0.4,
    'probability',
    'clinic default',
    'Twice the share of limbs that are taken to have changed at all (one in five); about 2 % of false alarms in simulated cohorts, 3 % with errors 1.5 times as assumed.',
    'Probability from which a limb, or a part of it, counts as changed beyond what the body explains',
  ),
  errorScale: limit(
    1,
    'factor on the variance',
    'clinic default',
    'Learnt from the clinic’s own limbs with three visits or more (command line: --scale learn); 1 is the error assumed above.',
    'How much larger the errors of this clinic are than assumed, all of them together',
  ),
  shiftAskMm: limit(
    15,
    'mm',
    'clinic default',
    'A clean pair of zeros differs by 0.7 cm, one standard deviation; at 1.5 cm about one clean visit in twenty is asked about.',
    'Smallest moved zero that is asked about',
  ),
  sharedSpanShare: limit(
    0.5,
    'share',
    'clinic default',
    'Volumes of less than half of the baseline ladder say little of the limb.',
    'Smallest share of the baseline ladder for a verdict',
  ),
  legHoursApart: limit(
    4,
    'h',
    'published',
    'Lower leg +4.7 % after 8 h standing, −5.6 % after 10 h lying (Tessari 2013, Veins and Lymphatics).',
    'Hours of the day apart before a leg change is doubted',
  ),
  legPostureSd: limit(
    0.025,
    'share',
    'published',
    'Half of the 5 % of volume between standing and lying (Tessari 2013).',
    'Spread of leg girth from another posture or hour',
  ),
  armPostureSd: limit(
    0.012,
    'share',
    'published',
    'Arm forward against hanging 1.4–3.4 % of volume (Peleg and Katz-Leurer 2017).',
    'Spread of arm girth from another posture',
  ),
  grownFromYears: limit(
    18,
    'years',
    'clinic default',
    'Growth tables end near 18 to 20 years; height alone decides for the rest.',
    'Age from which a patient counts as grown',
  ),
} as const satisfies Record<string, Limit>;

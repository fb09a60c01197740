import { mm } from '../units/length';
import { showLengthWithUnit } from '../units/show-length';
import { isAcknowledged } from './acknowledged';
import type { Doubt } from './doubt';
import type { Ladder } from './ladder';

/**
 * How much the gluteal fold's height above the floor should exceed a ladder from the ankle crease: the height of the foot, mm.
 *
 * Least and most: lateral malleolus height of adults, ANSUR II 2012, mean 63–73 mm, SD 5–6, p0.1–p99.9 about 45–95 mm;
 * children down to 45 mm at 4–6 years (Snyder 1977, medial malleolus). The crease lies at or a little above the malleolus
 * (common practice), so the upper end is taken wide. Clinic default: 30 to 130 mm.
 */
const FOOT_HEIGHT_MM = { least: 30, most: 130 } as const;

/**
 * The least share of body height that lies below the ankle crease, from a height (mm) on: 0.030 from 1,450 mm.
 *
 * Lateral malleolus height 0.040 of the height, SD 0.003 (ANSUR II 2012: men 0.0415, women 0.0385): three SDs and the reading of the
 * fold below. Shorter people are children, whose figures are rough (Snyder 1977, SD 8–9 mm of 45–58): `FOOT_HEIGHT_MM` serves them. Only
 * for a ladder whose top is its last rung: that is where one rung too many may stand.
 */
const FOOT_SHARE = { least: 0.03, fromHeightMm: 1450 } as const;

/**
 * Whether a leg ladder from the ankle crease to the gluteal fold agrees with the fold's height above the floor.
 *
 * fold height − ladder length should be about the height of the foot. If it is less, too many rungs were taken at the top; if it is
 * much more, rungs are missing. Nothing is asked without both figures. Body height, where it is known, makes the foot sharper.
 * Shape: a ladder, body height in mm; a doubt about the whole ladder, or undefined.
 * Source: common practice for the check; `FOOT_HEIGHT_MM` and `FOOT_SHARE` for the figures.
 * Example: ladder 594 mm, fold 660 mm above the floor: 66 mm of foot, no question; fold 600 mm: 6 mm, asked.
 */
export function floorCheck(ladder: Ladder, bodyHeightMm?: number): Doubt | undefined {
  if (ladder.limb !== 'leg' || !ladder.floorToFold) return undefined;
  const length = creaseToFold(ladder);
  if (!length) return undefined;
  const { lengthMm } = length;
  const footMm = mm(ladder.floorToFold.nm) - lengthMm;
  const tooShort = footMm > FOOT_HEIGHT_MM.most && length.reachesFold;
  const leastMm = length.reachesFold ? FOOT_HEIGHT_MM.least : leastFoot(bodyHeightMm);
  if (footMm >= leastMm && !tooShort) return undefined;
  const ladderText = showLengthWithUnit(lengthMm, ladder.unit);
  const foldText = showLengthWithUnit(mm(ladder.floorToFold.nm), ladder.unit);
  const usual = `about ${showLengthWithUnit(bodyHeightMm === undefined ? 65 : 0.04 * bodyHeightMm, ladder.unit)}`;
  const found = `The ladder is ${ladderText} long and the fold is ${foldText} above the floor: that leaves ${showLengthWithUnit(footMm, ladder.unit)} for the foot, usually ${usual}.`;
  const message =
    footMm < leastMm ? `Were too many rungs taken at the top? ${found}` : `Is a rung missing, or the fold height misread? ${found}`;
  const doubt: Doubt = { kind: 'ladder-length', distanceMm: null, message };
  return isAcknowledged(ladder, doubt) ? undefined : doubt;
}

function leastFoot(bodyHeightMm: number | undefined): number {
  const known = bodyHeightMm !== undefined && bodyHeightMm >= FOOT_SHARE.fromHeightMm;
  return known ? Math.max(FOOT_HEIGHT_MM.least, FOOT_SHARE.least * bodyHeightMm) : FOOT_HEIGHT_MM.least;
}

/** Length from the ankle crease towards the gluteal fold, mm: by the fold's landmark where it was taped, else to the last rung. */
function creaseToFold(ladder: Ladder): { lengthMm: number; reachesFold: boolean } | undefined {
  const upward = ladder.direction === 'up' && ladder.zero === 'ankle-crease';
  const downward = ladder.direction === 'down' && ladder.zero === 'gluteal-fold';
  if (!upward && !downward) return undefined;
  const end = ladder.landmarks.find(({ landmark }) => landmark === (upward ? 'gluteal-fold' : 'ankle-crease'));
  if (end) return { lengthMm: mm(end.distance.nm), reachesFold: true };
  if (downward) return undefined;
  return {
    lengthMm: Math.max(...ladder.rungs.map((rung) => mm(rung.distance.nm) as number)),
    reachesFold: false,
  };
}

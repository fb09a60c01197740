import { type LandmarkId, LIMBS, type LimbKind, type Side } from '../../ladder/limb';
import type { LengthUnit } from '../../units/length';
import { readLength } from '../../units/read-length';
import { withoutUnit } from './unit-in-text';

/** What people call the landmarks. A name that fits two places is not here. Source: common practice. */
const NAMES: Readonly<Record<LandmarkId, readonly string[]>> = {
  'ankle-crease': ['ankle', 'ankle crease', 'ankle joint'],
  knee: ['knee', 'knee crease'],
  'gluteal-fold': ['gluteal fold', 'buttock fold', 'gluteal'],
  'wrist-crease': ['wrist', 'wrist crease'],
  'elbow-crease': ['elbow', 'elbow crease'],
  'axillary-fold': ['axilla', 'axillary fold', 'armpit'],
};

/** Words behind a figure that count it from another place than the zero, or the other way: `5 above knee`, `2 below elbow`. */
const FROM_ELSEWHERE = /\b(above|below|over|under|from|beyond|before|up|down|proximal|distal|superior|inferior|minus)\b/i;

/** What one place of a chart stands for: a distance, perhaps with words; the distance of a landmark; or a figure of the body. */
export type PlaceLabel =
  | { readonly kind: 'distance'; readonly distance: string; readonly landmark: LandmarkId | null; readonly words: string }
  | { readonly kind: 'landmark-at'; readonly landmark: LandmarkId }
  | { readonly kind: 'body'; readonly of: 'height' | 'weight' | 'time' | 'posture' | 'measurer' | 'note' }
  | { readonly kind: 'unknown'; readonly reason: string };

const BODY = {
  height: ['height', 'stature', 'body height'],
  weight: ['weight', 'body weight'],
  time: ['time', 'hour'],
  posture: ['posture', 'position'],
  measurer: ['measurer', 'measured by', 'taped by', 'therapist', 'by'],
  note: ['note', 'notes', 'remark', 'remarks', 'comment', 'comments'],
} as const;

/**
 * The heading of a place: `8`, `8 cm`, `8 calf`, `34 knee`, `ankle` (when the ladder starts there), `knee at`, `height`.
 *
 * A name without a distance is refused unless it is the zero: nobody knows where it lies. Shape: text, limb, unit, the ladder's zero.
 */
export function placeLabel(text: string, limb: LimbKind, unit: LengthUnit | '', zero: string): PlaceLabel {
  const words = text.trim().toLowerCase().replace(/[_:]+/g, ' ').replace(/\s+/g, ' ').trim();
  const body = (Object.keys(BODY) as (keyof typeof BODY)[]).find((one) => (BODY[one] as readonly string[]).includes(withoutUnit(words)));
  if (body) return { kind: 'body', of: body };
  const at = /^(?:(?:distance (?:to|of)|landmark) (?:the )?(.+)|(.+) at)$/.exec(words);
  const marked = at && landmarkNamed(at[1] ?? at[2] ?? '', limb);
  if (marked) return { kind: 'landmark-at', landmark: marked };
  const zeroName = landmarkNamed(words, limb);
  if (zeroName !== undefined && zeroName === zero) return { kind: 'distance', distance: '0', landmark: null, words: '' };
  return (
    distanceIn(text.trim(), limb, unit) ?? {
      kind: 'unknown',
      reason: `“${text}” has no distance from the zero. Write it as “8” or “8 ${words || 'calf'}”.`,
    }
  );
}

function distanceIn(text: string, limb: LimbKind, unit: LengthUnit | ''): PlaceLabel | undefined {
  const found = /^\+?(\d[\d.,/ ¼½¾⅛⅜⅝⅞-]*)((?:cm|in|inch|inches|"|″)(?![a-z]))?\s*(\D.*)?$/i.exec(text);
  if (!found) return undefined;
  const [, figure = '', suffix = '', rest = ''] = found;
  const number = figure.replace(/[ -]+$/, '');
  const isZero = /^0+([.,]0+)?$/.test(number);
  const distance = isZero || suffix === '' ? number : `${number} ${suffix}`;
  if (!isZero && readLength(distance, unit || 'cm', true).kind !== 'read') return undefined;
  if (FROM_ELSEWHERE.test(rest))
    return {
      kind: 'unknown',
      reason: `“${text}” counts from another place than the zero. Write its distance from the zero, or leave it out.`,
    };
  const landmark = landmarkNamed(rest.toLowerCase(), limb) ?? null;
  return { kind: 'distance', distance, landmark, words: landmark ? '' : rest };
}

/** The distance in a cell of a column of distances, with the landmark or words behind it; the cell as it is where it is none. */
export function distanceInCell(
  text: string,
  limb: LimbKind,
  unit: LengthUnit | '',
): { readonly distance: string; readonly landmark: LandmarkId | null; readonly words: string } {
  const found = distanceIn(text.trim(), limb, unit);
  return found?.kind === 'distance' ? found : { distance: text, landmark: null, words: '' };
}

/** Whether a heading is a place in either unit, of either limb, whatever the zero will be: what a first look takes for a column of girths. */
export function isPlaceHeading(text: string): boolean {
  const words = text.trim().toLowerCase();
  const named = (['leg', 'arm'] as const).some((limb) => landmarkNamed(words, limb) !== undefined);
  const labels = (['leg', 'arm'] as const).flatMap((limb) => (['cm', 'in'] as const).map((unit) => placeLabel(text, limb, unit, '')));
  return (
    named ||
    labels.some(({ kind }) => kind === 'distance' || kind === 'landmark-at') ||
    (/^\+?\d/.test(words) && FROM_ELSEWHERE.test(words))
  );
}

/** The landmark of a limb that people call so. */
function landmarkNamed(name: string, limb: LimbKind): LandmarkId | undefined {
  return LIMBS[limb].landmarks.find((landmark) => landmark === name.trim() || NAMES[landmark].includes(name.trim()));
}

/** The side a heading begins or ends with, and the heading without it: `R 8` is right and `8`. */
export function sideIn(text: string): { readonly side: Side | undefined; readonly rest: string } {
  const found = /^(?:(right|left|r|l)\b[\s.:,_-]*(.*)|(.*?)[\s.:,_-]+(right|left|r|l))$/i.exec(text.trim());
  if (!found) return { side: undefined, rest: text.trim() };
  const word = (found[1] ?? found[4] ?? '').toLowerCase();
  return { side: word.startsWith('r') ? 'right' : 'left', rest: (found[2] ?? found[3] ?? '').trim() };
}

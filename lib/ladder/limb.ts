/** The limbs that a ladder is taped on. A new limb is one more entry in `LIMBS`. */
export type LimbKind = 'leg' | 'arm';

/** The patient's own left and right. */
export type Side = 'left' | 'right';

/** A bony or skin mark that can be found again at the next visit. */
export type LandmarkId = 'ankle-crease' | 'knee' | 'gluteal-fold' | 'wrist-crease' | 'elbow-crease' | 'axillary-fold';

export type Limb = {
  readonly kind: LimbKind;
  /** Landmarks from the far end of the limb to the trunk. */
  readonly landmarks: readonly [distal: LandmarkId, middle: LandmarkId, proximal: LandmarkId];
  /** A child's limb length goes with height to this power. Source: Snyder 1977, ln length on ln stature, 2 to 20 years. */
  readonly lengthExponent: number;
};

/** Every limb the program knows. Landmarks: common practice of garment ladders. */
export const LIMBS: Readonly<Record<LimbKind, Limb>> = {
  leg: { kind: 'leg', landmarks: ['ankle-crease', 'knee', 'gluteal-fold'], lengthExponent: 1.2 },
  arm: { kind: 'arm', landmarks: ['wrist-crease', 'elbow-crease', 'axillary-fold'], lengthExponent: 1.1 },
};

const LANDMARK_WORDS: Readonly<Record<LandmarkId, string>> = {
  'ankle-crease': 'ankle crease',
  knee: 'knee',
  'gluteal-fold': 'gluteal fold',
  'wrist-crease': 'wrist crease',
  'elbow-crease': 'elbow crease',
  'axillary-fold': 'axillary fold',
};

/** The landmark at the far end of a limb, from which heights are counted. Example: leg → ankle crease. */
export function distalLandmark(limb: LimbKind): LandmarkId {
  return LIMBS[limb].landmarks[0];
}

/** The other side of the body. Example: left → right. */
export function otherSide(side: Side): Side {
  return side === 'left' ? 'right' : 'left';
}

/** True when the text names a landmark of that limb. */
export function isLandmarkOf(limb: LimbKind, text: string): text is LandmarkId {
  return (LIMBS[limb].landmarks as readonly string[]).includes(text);
}

/** A landmark, or any other place a ladder starts at, in words: `ankle crease`. */
export function placeInWords(place: string): string {
  return LANDMARK_WORDS[place as LandmarkId] ?? place;
}

/** `right leg`; of what is worn in the middle the part alone: `head` */
export function limbInWords(limb: string, side: Side | 'middle'): string {
  return side === 'middle' ? limb : `${side} ${limb}`;
}

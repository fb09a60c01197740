import type { StoryPiece, StoryVisit, Taping } from './story';

/** Both arms, every 4 cm from the wrist. */
export const ARMS: Taping = {
  limb: 'arm',
  sides: ['left', 'right'],
  zero: 'wrist-crease',
  direction: 'up',
  unit: 'cm',
  interval: 4,
  rungs: 'whole',
  landmarks: [1, 2],
  floorToFold: false,
};

/** A visit sitting, so many days back. */
export const armVisit = (
  daysBack: number,
  time: string,
  by: StoryVisit['by'],
  weightKg: number,
  rest: Partial<StoryVisit> = {},
): StoryVisit => ({
  daysBack,
  time,
  by,
  posture: 'sitting',
  body: { weightKg },
  ...rest,
});

/** Swelling of one side, most from mid-forearm up. */
export const swollen =
  (swollenSide: 'left' | 'right', share: number): NonNullable<StoryVisit['swelling']> =>
  (side, place) =>
    side === swollenSide ? 1 + share * Math.min(1, 0.4 + place) : 1;

/** A sleeve from the wrist to the fold. */
export const armPiece = (
  rest: Partial<StoryPiece> & Pick<StoryPiece, 'piece' | 'side' | 'cutFromVisit' | 'firstWornBack'>,
): StoryPiece => ({
  from: 'wrist-crease',
  to: 'axillary-fold',
  reductionPct: 15,
  lifeDays: 150,
  leadDays: 21,
  ...rest,
});

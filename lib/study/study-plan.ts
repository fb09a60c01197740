import type { LimbKind, Side } from '../ladder/limb';
import type { LengthUnit, TypedLength } from '../units/length';

/** Bounds of a study: what can be typed in half an hour, and the least that says anything. Source: common practice, five limbs by three measurers twice. */
export const STUDY_BOUNDS = {
  people: { least: 1, most: 12 },
  limbs: { least: 3, most: 24 },
  measurers: { least: 2, most: 6 },
  repeats: { least: 2, most: 4 },
  rungs: { least: 5, most: 12 },
  code: 12,
  reason: 200,
} as const;

/** Limbs that a study may be of, by the name of their tick. */
export const STUDY_KINDS = {
  'left-leg': { limb: 'leg', side: 'left', words: 'Left leg' },
  'right-leg': { limb: 'leg', side: 'right', words: 'Right leg' },
  'left-arm': { limb: 'arm', side: 'left', words: 'Left arm' },
  'right-arm': { limb: 'arm', side: 'right', words: 'Right arm' },
} as const;

/** One limb that is taped: whose, by a code that is no name, and which. */
export type StudyLimb = { readonly person: string; readonly limb: LimbKind; readonly side: Side };

/** What a study is of, fixed before its first figure: limbs, who tapes them, how often, at which heights, and the seed its order is drawn from. */
export type StudyPlan = {
  readonly limbs: readonly StudyLimb[];
  readonly measurers: readonly { readonly id: string; readonly name: string }[];
  readonly repeats: number;
  readonly unit: LengthUnit;
  /** Heights above the floor or the wrist mark, from the lowest. */
  readonly heights: readonly TypedLength[];
  readonly seed: number;
};

/** One taping of a study: by whom (place among the measurers), of which limb (place among the limbs), for the how-manieth time, from 0. */
export type StudyTurn = { readonly measurer: number; readonly limb: number; readonly repeat: number };

/** What was typed of one taping: a girth at every height. */
export type StudyRun = { readonly turn: StudyTurn; readonly girths: readonly TypedLength[] };

/** A taping by a short name, for addresses. Example: measurer 0, limb 3, second time: `0-3-1`. */
export function turnName({ measurer, limb, repeat }: StudyTurn): string {
  return `${measurer}-${limb}-${repeat}`;
}

/** A limb in words: `P3, left leg`. */
export function studyLimbInWords({ person, side, limb }: StudyLimb): string {
  return `${person}, ${side} ${limb}`;
}

import type { Phase } from '@/lib/course/phases';
import type { LimbKind, Side } from '@/lib/ladder/limb';
import type { PromptAction } from '@/lib/prompts/prompt';
import type { OrderReason } from '@/lib/record/order';
import type { Sex } from '@/lib/record/patient-record';
import type { LengthUnit } from '@/lib/units/length';
import type { Hand } from './hand';
import type { BodyShape } from './limb-shapes';
import type { StoryMeasure } from './measure-visit';

/** How the limbs of a story are taped at every visit. */
export type Taping = {
  readonly limb: LimbKind;
  readonly sides: readonly Side[];
  readonly zero: string;
  readonly direction: 'up' | 'down';
  readonly unit: LengthUnit;
  /** In the unit. */
  readonly interval: number;
  /** Ladder goes to the proximal landmark (`whole`), or stops after so many intervals. */
  readonly rungs: 'whole' | number;
  /** Landmarks that are read on the ruler, by number along the limb: 0 distal, 1 middle, 2 proximal. */
  readonly landmarks: readonly (0 | 1 | 2)[];
  readonly floorToFold: boolean;
};

/** What happened at one visit of a story. */
export type StoryVisit = {
  readonly daysBack: number;
  readonly time: string;
  readonly by: Hand;
  readonly posture: string;
  /** Child: z-scores on the CDC 2000 tables. Grown: weight in kg; height stays. */
  readonly body: { readonly heightZ: number; readonly weightZ: number } | { readonly weightKg: number };
  readonly note?: string;
  /** Extra girth as a factor, by side and anatomical place 0 to 2. */
  readonly swelling?: (side: Side, place: number) => number;
  /** Zero put this far too low on one side, cm; negative is too near the trunk. */
  readonly zeroLowCm?: { readonly side: Side; readonly cm: number };
  /** Girths read off the inch side of the tape and typed on a centimetre sheet. */
  readonly inchesTypedAsCm?: boolean;
};

/** A piece of a story; days count back from today, visits by their number from the first. */
export type StoryPiece = {
  readonly piece: string;
  readonly side: Side;
  readonly from: string;
  readonly to: string;
  readonly cutFromVisit: number;
  readonly reductionPct: number;
  readonly allowance?: string;
  readonly firstWornBack: number | null;
  readonly lifeDays: number;
  readonly leadDays: number;
  /** Worn, and nobody has written down how it fitted. Otherwise it was checked on the day of first wear. */
  readonly firstFitMissing?: boolean;
  /** Form of this piece, where it is made to the named measures of its side alone; else that of the story. */
  readonly madeTo?: string;
  readonly retired?: { readonly daysBack: number; readonly reason: string };
};

/** An order of a story: proposed, or sent so many days back with pieces that are still to come. */
export type StoryOrder = {
  readonly side: Side;
  readonly from: string;
  readonly to: string;
  readonly cutFromVisit: number;
  readonly reductionPct: number;
  readonly quantity: number;
  readonly allowance?: string;
  readonly lifeDays: number;
  readonly leadDays: number;
  readonly reasonCode: OrderReason;
  /** Null while it is only proposed. */
  readonly sentBack: number | null;
  readonly checkedBy?: string;
};

/** What was answered to a prompt of a story, so many days back; "not now" holds for so many days from today. */
export type StoryAnswer = {
  readonly action: PromptAction;
  readonly daysBack: number;
  readonly reason: string;
} & ({ readonly answer: 'act' } | { readonly answer: 'not-now'; readonly untilAhead: number });

/** A phase of a course, begun so many days back; a day to ask again lies so many days ahead. */
export type StoryPhase = Pick<Phase, 'kind' | 'endedAs' | 'note'> & {
  readonly daysBack: number;
  /** Number of the visit that was chosen as its baseline. */
  readonly baselineVisit?: number;
  readonly askAhead?: number;
};

/** One made-up person and what happens to them. */
export type Story = {
  readonly reference: string;
  readonly name: string;
  /** What this person is here to show. */
  readonly shows: string;
  readonly sex: Sex;
  readonly years: number;
  readonly months: number;
  readonly shape: BodyShape;
  /** Grown people only. */
  readonly heightCm?: number;
  readonly diagnosisGroup: string;
  readonly language: 'en' | 'es';
  readonly note: string | null;
  readonly affected: readonly Side[];
  /** Lasting factor of girth of the affected limb. */
  readonly affectedFactor: number;
  readonly taping: Taping;
  readonly visits: readonly StoryVisit[];
  readonly pieces: readonly StoryPiece[];
  readonly orders?: readonly StoryOrder[];
  readonly answers?: readonly StoryAnswer[];
  readonly phases?: readonly StoryPhase[];
  /** Named measures that are taken at every visit. */
  readonly measures?: readonly StoryMeasure[];
  /** Form of every piece; a sleeve of the limb where none is told. */
  readonly form?: string;
  /** Nobody has gone through the caution cards yet. */
  readonly cautionsUnasked?: true;
};

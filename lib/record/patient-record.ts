import type { Phase } from '../course/phases';
import type { KeptBooking } from '../diary/booking';
import type { KeptDoubt, Ladder } from '../ladder/ladder';
import { type LandmarkId, type LimbKind, limbInWords, type Side } from '../ladder/limb';
import type { KeptReply } from '../observations/family-reply';
import type { KeptObservation } from '../observations/observation';
import { type OwnMeasure, type Part, type PartSide, partOfSideInWords } from '../parts/measure';
import type { CalendarDay } from '../units/calendar-day';
import type { TypedLength } from '../units/length';
import type { TypedMass } from '../units/mass';
import type { CautionAnswer } from './caution-answer';
import type { PieceLife } from './piece-life';
import type { WorkFacts } from './work-facts';

/** Sex as growth tables use it; X reads no table. */
export type Sex = 'F' | 'M' | 'X';

/** One limb of one side. */
export type LimbSide = { readonly limb: LimbKind; readonly side: Side };

/** Where a garment is worn: a limb of one side; trunk or head, in the middle, where it is made to named measures alone. */
export type WornPlace = { readonly limb: LimbKind | 'trunk' | 'head'; readonly side: PartSide };

/** The limb that a place is of; undefined for trunk and head. */
export function limbOf({ limb, side }: WornPlace): LimbSide | undefined {
  return limb === 'trunk' || limb === 'head' || side === 'middle' ? undefined : { limb, side };
}

/** A reading with a name, off the ladders: `waist`, `heel–instep girth`. */
export type SingleReading = { readonly name: string; readonly length: TypedLength };

/** One named measure of a visit: an id of the catalogue or of a clinic’s own, its side, and the figure as typed. */
export type NamedMeasure = {
  /** The part it was written under. */
  readonly part: Part;
  readonly side: PartSide;
  readonly measure: string;
  /** The definition, where a clinic added the measure. */
  readonly own?: OwnMeasure;
  readonly length: TypedLength;
  /** The same, measured a second time. */
  readonly again?: TypedLength;
  readonly note?: string;
  /** Questions about it that were answered "keep". */
  readonly kept?: readonly KeptDoubt[];
};

/** A part of one side, as swollen or scarred as an affected limb. */
export type PartOfSide = { readonly part: Part; readonly side: PartSide };

/** Why a limb was measured twice on one day: to see how well the tape repeats, or before and after a treatment. */
export const OCCASIONS = ['second-measuring', 'after-treatment'] as const;
export type Occasion = (typeof OCCASIONS)[number];

/** One visit: a day, what was taped, and what else was measured that day. */
export type Visit = {
  /** Where it is kept under an id; a piece and an order point at it. */
  readonly visitId?: string;
  readonly day: CalendarDay;
  /** Clock time `HH:MM` as written, or null. */
  readonly time: string | null;
  readonly posture: string | null;
  readonly measurer: string | null;
  /** Who that is, where it is known (`measurerIdOf`); left out where names alone are compared. */
  readonly measurerId?: string;
  readonly height: TypedLength | null;
  readonly weight: TypedMass | null;
  readonly note: string | null;
  readonly ladders: readonly Ladder[];
  readonly readings?: readonly SingleReading[] | null;
  /** Named measures of hand, foot, trunk and head; left out where none was taken. */
  readonly measures?: readonly NamedMeasure[] | null;
  /** Height or weight that looked odd and was kept: by whom and when. */
  readonly keptBody?: readonly KeptDoubt[] | null;
  /** Said where the same limb was measured at another visit of the same day. */
  readonly occasion?: Occasion | null;
};

/** How the relaxed garment girth follows from the limb girth C and the reduction r. */
export type ReductionConvention = 'C(1-r)' | 'C/(1+r)';

/** An end of the stretch that a piece covers: a landmark, or a distance from the zero of its cut-from ladder. */
export type CoverEnd = LandmarkId | TypedLength;

/** What a piece covers: a stretch of its ladder; or `measures`: made to named measures alone, it has no ladder and reaches as far as they do. */
export type Cover = { readonly from: CoverEnd; readonly to: CoverEnd } | 'measures';

/** One physical garment. Two of the same order are two pieces. What happened to it since it was ordered is there where it was written down. */
export type Piece = Partial<PieceLife> & {
  readonly piece: string;
  readonly limb: WornPlace['limb'];
  readonly side: WornPlace['side'];
  readonly covers: Cover;
  /** Day of the visit whose figures the piece was made to. */
  readonly cutFrom: CalendarDay;
  /** The visit itself, where visits have ids; the day follows it when it is corrected. */
  readonly cutFromVisitId?: string | null;
  readonly reductionPct: number;
  readonly convention: ReductionConvention;
  /** Total let-out width, or null for none. */
  readonly allowance: TypedLength | null;
  readonly firstWorn: CalendarDay | null;
  readonly lifeDays: number;
  readonly leadDays: number;
  readonly retired: CalendarDay | null;
  /** Day of the first-fit check: null when none is on record, undefined where first fits are not recorded at all. */
  readonly firstFit?: CalendarDay | null;
};

/** Whether a piece was cut from ladders of that limb; one made to named measures alone was cut from none. */
export function isCutFromLadderOf(piece: Piece, limb: LimbKind, side: Side): boolean {
  return piece.covers !== 'measures' && piece.limb === limb && piece.side === side;
}

/** Something after which a limb is no longer the same series: the trend restarts here. */
export type PatientEvent = {
  readonly day: CalendarDay;
  readonly kind: 'operation' | 'infection' | 'therapy' | 'other';
  readonly words: string;
};

/** A patient with visits and pieces, as the rules see it. Visits rise by day. */
export type PatientRecord = {
  readonly reference: string;
  readonly born: CalendarDay;
  readonly sex: Sex;
  readonly affected: readonly LimbSide[];
  /** Affected parts that are no limb; left out where none is. */
  readonly affectedParts?: readonly PartOfSide[] | null;
  readonly visits: readonly Visit[];
  readonly pieces: readonly Piece[];
  readonly events?: readonly PatientEvent[];
  /** Phases of the course of care in order; none on record: all visits are one phase. */
  readonly phases?: readonly Phase[];
  /** The latest answer to each caution card. */
  readonly cautions?: readonly CautionAnswer[];
  /** Who the person is for the work; null or left out where nothing is written down. */
  readonly facts?: WorkFacts | null;
  readonly bookings?: readonly KeptBooking[];
  /** What was looked at, by day. */
  readonly observations?: readonly KeptObservation[];
  /** What the family sent back by the link of its page, as it came. */
  readonly replies?: readonly KeptReply[];
};

/** True when the record says that this limb is affected. */
export function isAffected(record: PatientRecord, limb: LimbKind, side: Side): boolean {
  return record.affected.some((one) => one.limb === limb && one.side === side);
}

/** What is affected, in words: `left leg`, `right arm and right hand`; empty where nothing is marked. */
export function affectedInWords({ affected, affectedParts }: Pick<PatientRecord, 'affected' | 'affectedParts'>): string {
  const limbs = affected.map(({ limb, side }) => limbInWords(limb, side));
  const parts = (affectedParts ?? []).map(({ part, side }) => partOfSideInWords(part, side));
  return [...limbs, ...parts].join(' and ');
}

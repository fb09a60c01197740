import type { GarmentSpec } from '../garment-forms/garment-catalogue';
import type { Ladder } from '../ladder/ladder';
import type { CalendarDay } from '../units/calendar-day';
import type { TypedLength } from '../units/length';
import type { TypedMass } from '../units/mass';
import type { Cover, LimbSide, NamedMeasure, ReductionConvention, SingleReading, WornPlace } from './patient-record';

/** Where an order stands. Its pieces have days of their own: it is delivered when all of them are. */
export type OrderState = 'proposed' | 'ordered' | 'cancelled';

/** Why a piece is ordered. */
export const ORDER_REASONS = [
  'first piece',
  'second piece',
  'worn out',
  'outgrown',
  'lost',
  'damaged',
  'condition changed',
  'remake',
] as const;
export type OrderReason = (typeof ORDER_REASONS)[number];

/** Room the engine proposed on a day, mm of relaxed width: the largest over the places, and by place on the ladder's upward ruler. */
export type ProposedRoom = {
  readonly middleMm: number;
  readonly highMm: number;
  readonly places: readonly { readonly placeMm: number; readonly middleMm: number }[];
};

/** Room to let out: what was proposed, or why nothing could be, and what the therapist decided. */
export type AllowanceDecision = {
  readonly proposed: ProposedRoom | { readonly noAnswer: string };
  /** What was proposed for the further ladders of the set; left out where there is none. */
  readonly further?: readonly (LimbSide & { readonly proposed: ProposedRoom | { readonly noAnswer: string } })[];
  readonly decided: TypedLength | null;
};

/** A question that stood open against an order and was answered in words: by whom and when. */
export type AnsweredQuestion = {
  readonly key: string;
  readonly message: string;
  readonly answer: string;
  readonly by: string;
  readonly at: string;
};

/** The figures as they were sent, frozen: later corrections of the visit do not reach them. */
export type SentFigures = {
  readonly day: CalendarDay;
  readonly visitRevision: number;
  readonly measurer: string | null;
  /** The ladder of the order's own limb; left out of a garment made to named measures alone. */
  readonly ladder?: Ladder;
  /** The other ladders the garment is made to; left out where there is none. */
  readonly further?: readonly Ladder[];
  /** The named measures it is made to; left out where there is none. */
  readonly measures?: readonly NamedMeasure[];
  readonly readings: readonly SingleReading[];
  readonly height: TypedLength | null;
  readonly weight: TypedMass | null;
};

/** A second person's check: who (id and name), when, and which state of the visit was read. */
export type PersonsCheck = { readonly by: string; readonly name: string; readonly at: string; readonly visitRevision: number };

/** The check of an order's figures; or that it was sent unchecked. */
export type SecondCheck = PersonsCheck | 'unchecked';

/** Longest name of a maker, and of a colour. */
export const LONGEST_OF_ORDER = { maker: 120, colour: 60 } as const;

/** One order of one or more like pieces, for one limb, a set of them (`record/garment-needs`) or named measures alone, cut from one visit's figures. */
export type Order = WornPlace & {
  /** Number among the patient's orders, from 1. */
  readonly order: number;
  readonly state: OrderState;
  readonly cutFromVisitId: string;
  readonly cutFrom: CalendarDay;
  readonly covers: Cover;
  readonly garment: GarmentSpec;
  readonly reductionPct: number;
  readonly convention: ReductionConvention;
  readonly quantity: number;
  /** How many of them are not made until another one has been fitted; left out where none is held back. */
  readonly heldBack?: number;
  readonly allowance: AllowanceDecision;
  readonly lifeDays: number;
  readonly leadDays: number;
  readonly reasonCode: OrderReason;
  readonly note: string | null;
  /** Who makes it and in which colour, in the clinic’s own words; the day it is needed by. Left out where nobody said. */
  readonly maker?: string;
  readonly colour?: string;
  readonly neededBy?: CalendarDay;
  readonly questions: readonly AnsweredQuestion[];
  readonly ordered: CalendarDay | null;
  readonly expected: CalendarDay | null;
  readonly sent: SentFigures | null;
  readonly checked: SecondCheck | null;
};

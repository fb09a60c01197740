/** What may have changed between two visits: the whole limb, its far part alone, its near part alone. */
export type StepKind = 'whole' | 'far' | 'near';

/** One limb at one visit: log girth of its parts (far, then near; one alone where the limb is not divided), with their errors' covariance. */
export type LimbLook = {
  /** 0 is the limb that is judged; the others are witnesses. */
  readonly limb: number;
  /** Null where the part was not taped. The body's share is taken out. */
  readonly girths: readonly (number | null)[];
  readonly covariance: readonly (readonly number[])[];
};

/** One visit as the model takes it. Variances of natural logarithms of girth. */
export type VisitLook = {
  /** Years since the first visit. */
  readonly years: number;
  /** Variance common to all limbs taped that day: tape tension, the day, and whatever is known of this day alone. */
  readonly dayVariance: number;
  /** Which lasting habit is in the figures (a measurer, a posture), each with its loading 1. Numbers below `CourseTerms.habits.length`. */
  readonly habits: readonly number[];
  /** Natural logarithms of weight and height over those of the first record; how a person's own exponents come in. */
  readonly lnWeight: number;
  readonly lnHeight: number;
  /** Whether the limb may have changed since the look before: not between two tapings of one sitting. */
  readonly mayStep: boolean;
  readonly limbs: readonly LimbLook[];
};

/** Variances of the model's terms; drifts are a year's. */
export type CourseTerms = {
  readonly parts: readonly number[];
  readonly habits: readonly number[];
  readonly lnWeightVariance: number;
  readonly lnHeightVariance: number;
  /** Drift of the body model, common to all limbs. */
  readonly commonDrift: number;
  /** Drift of each limb by itself, and of each of its parts beside that. */
  readonly ownDrift: number;
  readonly partDrift: number;
  readonly stepVariance: number;
  /** Prior odds of one step more against one step less. */
  readonly stepOdds: number;
  readonly mostSteps: number;
  /** Histories that are carried on from visit to visit. */
  readonly kept: number;
};

/** One history as it stands at a visit: its steps (by visit), what is believed of their sizes, and its weight. */
export type History = {
  readonly visits: readonly number[];
  readonly kinds: readonly StepKind[];
  readonly sizes: readonly number[];
  /** Covariance of the sizes, row by row. */
  readonly covariance: readonly number[];
  /** Share of the posterior; all histories of a visit add up to 1. */
  readonly weight: number;
};

/** What is believed at a visit from all visits up to it. */
export type CourseAt = {
  readonly histories: readonly History[];
  /** Body error common to all limbs so far (log girth), as the heaviest history has it. */
  readonly common: number;
  /** Variance of the size of a whole-limb step at this very visit by the figures alone; undefined where there was none to look for. */
  readonly newStepVariance: number | undefined;
  /** How many places there were for a step. */
  readonly stepPlaces: number;
  /** Whitened residual sum without any step, and its degrees of freedom. */
  readonly strain: number;
  readonly degrees: number;
  /** The same of the heaviest history, a degree less for each of its steps. */
  readonly leastStrain: number;
  readonly leastDegrees: number;
};

import type { PhaseKind } from '../../course/phases';
import type { GrowthWatchPart } from '../../garment-forms/garment-catalogue';
import type { LandmarkId, LimbKind, Side } from '../../ladder/limb';
import type { CalendarDay } from '../../units/calendar-day';
import type { LengthUnit } from '../../units/length';
import type { FamilyLanguage } from './language-names';
import type { PlanWords, ReplyWords } from './reply-words';

/** What a therapist says of the limb since last time. Nothing of it is the engine's: a person chooses. */
export const CHANGES = ['first', 'grew-along', 'same', 'larger', 'smaller', 'not-sure'] as const;
export type Change = (typeof CHANGES)[number];

/** What a therapist says of the garment. */
export const RIGHTS = ['yes', 'soon', 'no', 'not-sure'] as const;
export type StillRight = (typeof RIGHTS)[number];

/** Why it will not be right for long, where that is said. */
export const REASONS = ['growing', 'less-stretch', 'changed'] as const;
export type WhyNot = (typeof REASONS)[number];

/** What happens next; `other` is in the therapist's own words. */
export const STEPS = ['visit', 'remeasure', 'order', 'delivery', 'try-on', 'call', 'other'] as const;
export type StepKind = (typeof STEPS)[number];

/** The steps that are a visit. */
export const VISITS = ['visit', 'remeasure', 'try-on'] as const satisfies readonly StepKind[];

/** Signs of one kind: each ends the sentence that the lead begins. */
type Signs = { readonly lead: string; readonly signs: readonly string[] };

/** Who reads the page: a child's family, or the patient. */
export type Reader = 'family' | 'patient';

/** Whom the page is about, as every sentence needs it. */
export type Person = { readonly reader: Reader; readonly name: string; readonly limb: LimbKind; readonly side: Side };

/**
 * Every word of the family page in one language. A further language is one more file of this shape.
 *
 * Sentences with a figure are functions, so that no placeholder can be left in. `version` rises with every change of meaning and is frozen
 * with each approved page. Source of the rules of wording: plain-language guides (short sentences, one number each, no blame, no promise).
 */
export type FamilyWords = {
  readonly language: FamilyLanguage;
  /** Name of the language in itself. */
  readonly name: string;
  readonly direction: 'ltr' | 'rtl';
  readonly version: number;
  readonly title: (person: Person) => string;
  /** `Wednesday, November 25, 2026`, in the custom of the unit the family uses. */
  readonly day: (day: CalendarDay, unit: LengthUnit, withYear: boolean) => string;
  readonly month: (day: CalendarDay) => string;
  /** A length as the family says it: `2¾ inches`. */
  readonly length: (lengthMm: number, unit: LengthUnit) => string;
  readonly heads: {
    readonly measured: string;
    readonly right: string;
    readonly wear: string;
    readonly next: string;
    readonly wait: string;
    readonly call: string;
    readonly note: string;
  };
  readonly measured: (person: Person, places: number) => string;
  readonly taller: (person: Person, by: string, since: string) => string;
  /** In how many places the hand or foot of the limb was measured, and by how much it is longer. */
  readonly partMeasured: (person: Person, places: number) => string;
  readonly partLonger: (person: Person, by: string, since: string) => string;
  /** Where the person stands in the course of care, and with which month its verdicts compare. */
  readonly phase: (kind: PhaseKind) => string;
  readonly comparedWith: (month: string) => string;
  readonly change: (person: Person, change: Change) => string;
  readonly right: (person: Person, right: StillRight) => string;
  readonly because: (person: Person, why: WhyNot) => string;
  readonly hours: (hours: number) => string;
  readonly noHours: string;
  readonly step: (kind: Exclude<StepKind, 'other'>) => string;
  readonly noStep: string;
  readonly today: string;
  readonly by: (day: string) => string;
  /** Signs to take it off and call, by limb and by what the garment presses. */
  readonly callSigns: (limb: LimbKind, watch: readonly GrowthWatchPart[]) => readonly string[];
  readonly callLead: string;
  readonly firstDay: string;
  readonly noPhone: string;
  readonly noNight: string;
  /** What the clinic wrote for the night, with the time it is for where that is not said in it. */
  readonly night: (said: string) => string;
  /** How a closure opens; none where the garment has none that is known. */
  readonly opens: (closure: string) => string | null;
  readonly ambulance: Signs & {
    readonly head: (number: string) => string;
    readonly minutes: (limb: LimbKind, minutes: number) => string;
    readonly heat: string;
  };
  readonly sameDay: Signs & { readonly head: string };
  readonly nextDay: Signs & { readonly head: string };
  /** What stands where nobody wrote down any allergy: never that there is none. */
  readonly noAllergies: string;
  /** What a stranger is told: what it is worn for, as typed or a line to write on, and allergies. */
  readonly tell: (person: Person, wornFor: string, allergies: string) => string;
  /** One line that stands on the first side of large print. */
  readonly callLine: (phone: string, night: string, emergency: string) => string;
  /** Whose limb is drawn, and from where to where; null where no landmark is known near the ladder. */
  readonly picture: (person: Person, ends: { readonly from: string; readonly to: string } | null) => string;
  /** An end of the picture: a landmark, or so much above or below it. */
  readonly end: (landmark: LandmarkId, off: { readonly by: string; readonly above: boolean } | null) => string;
  readonly footer: (person: Person, by: string, day: string) => string;
  /** Words the clinic may take for its own: for washing they reach no page before it does, for waiting they stand until it writes its own. */
  readonly defaults: { readonly care: string; readonly wait: string };
  /** What stands while the clinic has approved no words for washing. */
  readonly noCare: string;
  readonly plan: PlanWords;
  readonly reply: ReplyWords;
};

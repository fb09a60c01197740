import type { LandmarkId, LimbKind, Side } from '../../ladder/limb';
import type { CalendarDay } from '../../units/calendar-day';
import type { LengthUnit } from '../../units/length';
import type { FamilyLanguage } from './language-names';

/** What a therapist says of the limb since last time. Nothing of it is the engine's: a person chooses. */
export const CHANGES = ['first', 'grew-as-hoped', 'same', 'larger', 'smaller', 'not-sure'] as const;
export type Change = (typeof CHANGES)[number];

/** What a therapist says of the garment. */
export const RIGHTS = ['yes', 'soon', 'no', 'not-sure'] as const;
export type StillRight = (typeof RIGHTS)[number];

/** Why it will not be right for long, where that is said. */
export const REASONS = ['growing', 'wearing-thin', 'changed'] as const;
export type WhyNot = (typeof REASONS)[number];

/** What happens next; `other` is in the therapist's own words. */
export const STEPS = ['visit', 'remeasure', 'order', 'delivery', 'try-on', 'call', 'other'] as const;
export type StepKind = (typeof STEPS)[number];

/** The steps that are a visit. */
export const VISITS = ['visit', 'remeasure', 'try-on'] as const satisfies readonly StepKind[];

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
  readonly change: (person: Person, change: Change) => string;
  readonly right: (person: Person, right: StillRight) => string;
  readonly because: (person: Person, why: WhyNot) => string;
  readonly hours: (hours: number) => string;
  readonly noHours: string;
  readonly step: (kind: Exclude<StepKind, 'other'>) => string;
  readonly noStep: string;
  readonly today: string;
  readonly by: (day: string) => string;
  readonly callSigns: (limb: LimbKind) => readonly string[];
  readonly callLead: string;
  readonly noPhone: string;
  readonly emergency: (number: string) => string;
  /** Whose limb is drawn, and from where to where; null where no landmark is known near the ladder. */
  readonly picture: (person: Person, ends: { readonly from: string; readonly to: string } | null) => string;
  /** An end of the picture: a landmark, or so much above or below it. */
  readonly end: (landmark: LandmarkId, off: { readonly by: string; readonly above: boolean } | null) => string;
  readonly footer: (person: Person, by: string, day: string) => string;
  /** What stands until the clinic writes its own: clinic default, marked so in the settings. */
  readonly defaults: { readonly care: string; readonly wait: string };
};

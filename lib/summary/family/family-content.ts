import type { PhaseKind } from '../../course/phases';
import type { GrowthWatchPart } from '../../garment-forms/garment-catalogue';
import type { BuildUpStep } from '../../garments/build-up';
import type { LandmarkId } from '../../ladder/limb';
import type { LimbSide } from '../../record/patient-record';
import type { CalendarDay } from '../../units/calendar-day';
import type { LengthUnit } from '../../units/length';
import type { TypedCalls } from './clinic-texts';
import type { Change, Person, StillRight, WhyNot } from './family-words';
import type { FamilyStep } from './step-rows';

/** What a therapist confirmed or typed for the page. Nothing else of meaning reaches it. */
export type FamilyChoice = {
  readonly language: string;
  readonly person: Person;
  readonly change: Change;
  readonly right: StillRight;
  readonly why: WhyNot | null;
  readonly hours: number | null;
  readonly steps: readonly FamilyStep[];
  readonly note: string;
  /** What a stranger is told in an emergency: what it is worn for (empty leaves a line to write on), and allergies (empty says that none are written down). */
  readonly wornFor?: string;
  readonly allergies?: string;
  /** Whom to call, where the clinic's texts leave it open. */
  readonly calls?: TypedCalls;
};

/** What is printed for an emergency beside the clinic's texts: none of it may be blank. */
export type FamilyHelp = {
  readonly emergency: string;
  readonly minutes: number;
  /** What the garments in use press, and how they open. */
  readonly watch: readonly GrowthWatchPart[];
  readonly closures: readonly string[];
};

/** What was measured, as data: no rule and no verdict is in it. */
export type FamilyFacts = {
  readonly day: CalendarDay;
  readonly unit: LengthUnit;
  readonly places: number;
  /** Height gained since an earlier visit, for a child measured at both; mm. */
  readonly taller: { readonly byMm: number; readonly since: CalendarDay } | null;
  /** The hand or foot of the limb, where it was measured: in how many places, and how much longer it is where that is beyond tape error; mm. */
  readonly part?: { readonly places: number; readonly longer: { readonly byMm: number; readonly since: CalendarDay } | null };
  /** The phase of the course on the day, and the day of its baseline where that is another; absent without phases. */
  readonly phase?: { readonly kind: PhaseKind; readonly comparedWith: CalendarDay | null };
  /** Absent where nothing is known of it: the number that every telephone takes, and the default minutes. */
  readonly help?: FamilyHelp;
  /** Steps of the newest wear-in of this limb that runs on the day; left out where none does. */
  readonly plan?: readonly BuildUpStep[];
  /** The outline with the places a family can choose; null where the ladder does not know both landmarks. */
  readonly marked?: MarkedOutline | null;
  /** Outlines of the limb then and now, heights and girths in mm; `earlier` only where there is such a ladder. */
  readonly outlines: { readonly earlier: FamilyOutline | null; readonly now: FamilyOutline; readonly ends: PictureEnds | null } | null;
};

/** An end of the picture: the landmark nearest to it, and how far above that it lies, mm; 0 where it is the landmark. */
export type PictureEnd = { readonly landmark: LandmarkId; readonly aboveMm: number };
export type PictureEnds = { readonly from: PictureEnd; readonly to: PictureEnd };

export type FamilyOutline = {
  readonly day: CalendarDay;
  readonly heightsMm: readonly number[];
  readonly girthsMm: readonly number[];
  readonly lengthMm: number;
};

/** A limb as it stands in the form of a reply: rungs and the places to choose from 0 (foot of the picture) to 1 (its head), girths in whole mm. */
export type MarkedOutline = { readonly rungs: readonly number[]; readonly girthsMm: readonly number[]; readonly places: readonly number[] };

/** What a reply to the page is asked about: the visit, the limb, the hours planned, and where a mark can be shown. */
export type FamilyAsks = LimbSide & {
  readonly pageOf: CalendarDay;
  readonly unit: LengthUnit;
  readonly hours: number | null;
  readonly plan: readonly Pick<BuildUpStep, 'from' | 'to' | 'hours'>[];
  readonly outline: MarkedOutline | null;
};

/** A drawn outline with its words. */
export type FamilyDrawing = FamilyOutline & { readonly label: string; readonly lengthWords: string };

/** Signs with what they ask for; `urgent` is an ambulance. */
export type HelpBox = {
  readonly head: string;
  readonly lead: string;
  readonly signs: readonly string[];
  readonly line: string | null;
  readonly urgent: boolean;
};

/** The page as it is frozen: every sentence resolved. */
export type FamilyPage = {
  readonly language: string;
  readonly direction: 'ltr' | 'rtl';
  readonly version: number;
  readonly title: string;
  readonly dateLine: string;
  readonly sections: readonly { readonly head: string; readonly sentences: readonly string[] }[];
  readonly steps: {
    readonly head: string;
    readonly items: readonly { readonly when: string; readonly what: string }[];
    readonly none: string;
  };
  readonly wait: { readonly head: string; readonly text: string };
  readonly call: {
    readonly head: string;
    readonly lead: string;
    readonly signs: readonly string[];
    readonly phone: string;
    readonly lines: readonly string[];
    /** Ambulance, same day, next working day; pages from before these were printed have none. */
    readonly also?: readonly HelpBox[];
    readonly night?: string;
    /** For the first side of large print. */
    readonly line?: string;
  };
  readonly picture: { readonly side: Person['side']; readonly caption: string; readonly drawings: readonly FamilyDrawing[] } | null;
  /** The build-up of hours; absent where no wear-in runs. */
  readonly plan?: { readonly head: string; readonly items: readonly { readonly when: string; readonly what: string }[] };
  /** What the family can answer; pages from before that have no form. */
  readonly asks?: FamilyAsks;
  readonly footer: string;
};

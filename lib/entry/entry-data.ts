import type { Phase } from '../course/phases';
import type { BodyAskLimits } from '../doubts/body-doubts';
import type { BodyAt } from '../growth/body-at';
import type { ExpectedBody } from '../growth/expected-body';
import type { LastLadder } from '../growth/expected-ladder';
import type { LimbKind, Side } from '../ladder/limb';
import type { TapeSds } from '../limits/tape-sds';
import type { ListedMeasure } from '../parts/own-measure';
import type { CalendarDay } from '../units/calendar-day';
import type { VisitForm } from '../visit-form/visit-form';
import type { KnownMeasures } from './measure-questions';

/** What a draft holds: the form, the submission that its saving will be, and for a correction the revision it started from. */
export type DraftContent = { readonly form: VisitForm; readonly submissionId: string; readonly base?: number };

/** Under which name and key the device keeps a draft: made by the server for one person, patient and kind of form. */
export type DeviceKey = { readonly name: string; readonly key: string };

/** A draft as the sheet meets it. */
export type MetDraft = { readonly content: DraftContent; readonly version: number; readonly at: string };

/** What the figures on a sheet are compared with: the last ladders, the limbs treated, the body, the tape's errors. */
export type Known = {
  /** The last ladders by `limbKey`, for what is expected and for what was taped. */
  readonly last: Readonly<Record<string, LastLadder>>;
  readonly affected: readonly string[];
  /** Height and weight on record near the day, used until they are typed. */
  readonly bodyOnRecord: BodyAt;
  readonly tape: TapeSds;
  /** What is expected of height and weight that day, and when a figure is asked about. */
  readonly expectedBody: ExpectedBody;
  readonly bodyLimits: BodyAskLimits;
  /** A visit is not before this day. */
  readonly born: CalendarDay;
  /** The course of care: nothing is measured after it ended. */
  readonly phases?: readonly Phase[];
  /** Other visits of the record with the limbs that were measured (by `limbKey`): a second one of a day says why. */
  readonly otherVisits: readonly { readonly day: CalendarDay; readonly time: string | null; readonly limbs: readonly string[] }[];
  /** Named measures of hand, foot, trunk and head before this visit. */
  readonly measures: KnownMeasures;
  /** Who measured at the visits of the record, as written there. */
  readonly measurers: readonly string[];
  /** Names of the people of the clinic who may measure: the box offers them. */
  readonly colleagues?: readonly string[];
  /** The last day a visit may have. */
  readonly today: CalendarDay;
};

/** Everything the sheet needs, in plain data. */
export type SheetData = Known & {
  readonly patientId: string;
  readonly timeZone: string;
  readonly name: string;
  readonly reference: string;
  /** `new visit`, to which the sheet adds day and time as its form has them; or `correcting the visit of 25 Nov 2026`. */
  readonly title: string;
  readonly draftKind: string;
  readonly draftVersion: number;
  readonly draftAt: string | null;
  readonly submissionId: string;
  /** The revision that a correction starts from. */
  readonly base?: number;
  readonly form: VisitForm;
  /** Where the figures and the set-up come from, in a line or two. */
  readonly setUpFrom: readonly string[];
  readonly who: string;
  /** The clinic's own measures, retired ones among them, and those of the record that came from elsewhere. */
  readonly ownMeasures: readonly ListedMeasure[];
  /** New each time the server makes the page. */
  readonly openedId: string;
  /** Under which name and key this person's browser keeps what is typed while the server cannot be reached. */
  readonly device: DeviceKey;
  /** Opened from what a device kept: it may be finished although the server keeps no draft of it just now. */
  readonly away?: true;
};

/** `leg/right` */
export function limbKey(limb: LimbKind, side: Side): string {
  return `${limb}/${side}`;
}

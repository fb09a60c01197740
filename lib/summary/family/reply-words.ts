import type { LimbKind } from '../../ladder/limb';
import type { ReplySign } from '../../observations/family-reply';
import type { CalendarDay } from '../../units/calendar-day';
import type { LengthUnit } from '../../units/length';

/** The build-up plan of hours in words: its head, the days counted from first wear (the last null: from then on), and the hours with their dates. */
export type PlanWords = {
  readonly head: string;
  readonly days: (first: number, last: number | null) => string;
  readonly hours: (hours: number, from: string, to: string | null) => string;
  /** `Nov 25`, in the custom of the unit the family uses. */
  readonly day: (day: CalendarDay, unit: LengthUnit) => string;
};

/** The form by which a family answers, and what stands after it was sent. */
export type ReplyWords = {
  readonly head: string;
  readonly read: string;
  readonly urgent: string;
  readonly hours: string;
  readonly hoursHint: string;
  readonly hoursWrong: string;
  readonly marks: (of: { readonly limb: LimbKind }) => string;
  readonly marksHint: string;
  /** Names of the places from the far landmark to the near one. */
  readonly places: Readonly<Record<LimbKind, readonly [string, string, string, string, string]>>;
  readonly nothing: string;
  readonly signs: Readonly<Record<ReplySign, string>>;
  readonly call: string;
  /** Under the tick for a call: what to do about the number. */
  readonly callHint: string;
  readonly words: string;
  readonly by: string;
  readonly tooLong: (most: number) => string;
  readonly send: string;
  readonly empty: string;
  readonly refused: string;
  readonly ended: string;
  readonly tooMany: (most: number) => string;
  readonly wait: (minutes: number) => string;
  readonly later: string;
  readonly sentHead: string;
  readonly thanks: string;
  /** What became of a reply: it came and asks for nothing, nobody noted yet that it was read, it was read, answered by a call, or a call was tried, with the day. */
  readonly state: {
    readonly came: string;
    readonly open: string;
    readonly seen: (day: string) => string;
    readonly rung: (day: string) => string;
    readonly tried: (day: string) => string;
  };
  readonly said: {
    readonly hours: (hours: number) => string;
    readonly call: string;
    readonly by: (name: string) => string;
  };
};

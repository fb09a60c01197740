import { todayIn } from '@/app/_auth/today';
import type { DeviceKey, SheetData } from '@/lib/entry/entry-data';
import type { CalendarDay } from '@/lib/units/calendar-day';

/** The list of a day as it is kept on a device: heads and lines in words, and whose sheets to keep beside those that are opened. */
export type KeptList = {
  /** Which build wrote it: another one may read it otherwise. */
  readonly build: string;
  readonly day: CalendarDay;
  /** On the clinic's clock. */
  readonly at: string;
  readonly timeZone: string;
  readonly groups: readonly { readonly head: string; readonly total: number; readonly lines: readonly KeptLine[] }[];
  /** Patients who are booked or due for a visit today. */
  readonly dueToday: readonly string[];
  /** Seconds without a key or a touch after which the page closes itself, as a session does. */
  readonly idleSeconds: number;
  /** Under which name and key this person's browser keeps finished visits that wait to be sent. */
  readonly waiting: DeviceKey;
};

/** A line of the list. */
export type KeptLine = {
  readonly id: string;
  readonly patientId: string;
  readonly day: string;
  readonly over: string | null;
  readonly who: string;
  readonly about: string;
  readonly title: string;
  readonly reason: string;
};

/** The sheet of a new visit as it is kept on a device. */
export type KeptSheet = {
  readonly build: string;
  readonly day: CalendarDay;
  readonly at: string;
  readonly data: SheetData;
  readonly reminders: {
    readonly limb: 'leg' | 'arm';
    readonly last: { readonly posture: string | null; readonly zero: string } | undefined;
  };
};

/** What was taken out with the code: nothing of another day. */
export type Opened = { readonly list: KeptList; readonly sheets: readonly KeptSheet[] };

/** Under which name the list is kept; a sheet is kept under that of its device key. */
export const LIST = 'list';

/**
 * Why a list that was kept is not opened, in a sentence; undefined for one that may be: of this day on the clinic's calendar, and of this build.
 *
 * Example: kept on 1 December, opened an hour after midnight in the clinic's zone: it is of another day.
 */
export function notOpened(list: KeptList | undefined, build: string, now: Date): string | undefined {
  if (!list) return 'The list did not come whole.';
  if (list.day !== todayIn(list.timeZone, now))
    return `What this device keeps is of another day, ${list.day}. It is not opened as today’s.`;
  return list.build === build ? undefined : 'The program was renewed since this device was made ready.';
}

import type { CalendarDay } from '../units/calendar-day';

/** What a clinic asks before somebody leaves, and how to come back, by language. */
export type LeavingTexts = { readonly criteria: readonly string[]; readonly wayBack: Readonly<Record<string, string>> };

/** What was gone through before somebody left: each criterion as it was worded that day, met or not, and what was said of it. */
export type Leaving = {
  readonly day: CalendarDay;
  readonly criteria: readonly { readonly words: string; readonly met: boolean }[];
  /** Who supplies garments from now on. */
  readonly supplies: string | null;
  readonly note: string | null;
};

/** Most criteria, longest criterion, longest words. */
export const LEAVING_BOUNDS = { criteria: 20, criterion: 160, words: 600, short: 200 } as const;

/**
 * The criteria until a clinic writes its own. Source: those of a community service in the United Kingdom (managing alone with garments from
 * elsewhere, needs met elsewhere, no further gain, the person’s choice); for scars no numeric rule was found, and the last is a clinic default.
 */
export const LEAVING_DEFAULTS: LeavingTexts = {
  criteria: [
    'Puts the garment on and takes it off alone, or somebody at home does',
    'Knows who supplies the next garment',
    'Size has been steady at the last two visits',
    'No wound, no infection, no open mark on the skin',
    'Nothing more is to be gained here, or the person chooses to leave',
    'Of a scar: pale, flat and soft at two visits six weeks apart',
  ],
  wayBack: {},
};

import type { SetStyle } from '@/lib/exchange/set/write-set';

/** The ways a set can be written, by their name in an address, in words. */
export const SET_STYLES = {
  sheets: { words: 'For a spreadsheet', style: { research: false, defused: true } },
  raw: { words: 'To the letter, for scripts and for bringing in again', style: { research: false, defused: false } },
  research: { words: 'For research: no names, no words, ages instead of days', style: { research: true, defused: false } },
} as const satisfies Readonly<Record<string, { readonly words: string; readonly style: SetStyle }>>;

export type SetStyleName = keyof typeof SET_STYLES;

/** The style an address asks for, that for spreadsheets when it asks for none, or undefined. */
export function setStyleNamed(name: string | null): SetStyleName | undefined {
  if (name === null) return 'sheets';
  return (Object.keys(SET_STYLES) as SetStyleName[]).find((one) => one === name);
}

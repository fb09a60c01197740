import type { importWithCounts } from '@/db/exchange/read-imports';
import { counted } from './counted';

type Import = NonNullable<Awaited<ReturnType<typeof importWithCounts>>>;

/** Where an import stands, in words. */
export const IMPORT_STATES: Readonly<Record<Import['state'], string>> = {
  reading: 'being looked at',
  open: 'being brought in',
  done: 'brought in',
  stopped: 'stopped',
  undone: 'taken back',
};

type ItemState = keyof Import['counts'];

/** What became of patients of an import: how many, in words. */
export function itemsInWords(state: ItemState, items: number): string {
  const [one, many] = ITEM_STATES[state];
  return counted(items, one, many);
}

const ITEM_STATES: Readonly<Record<ItemState, readonly [one: string, many: string]>> = {
  waiting: ['still to be brought in', 'still to be brought in'],
  new: ['new patient', 'new patients'],
  extended: ['known patient with visits or pieces added', 'known patients with visits or pieces added'],
  same: ['known patient, all there already', 'known patients, all there already'],
  refused: ['not brought in', 'not brought in'],
  stopped: ['left out when it was stopped', 'left out when it was stopped'],
  undone: ['taken back', 'taken back'],
};

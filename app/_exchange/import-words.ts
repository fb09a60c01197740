import type { importWithCounts } from '@/db/imports';

type Import = NonNullable<Awaited<ReturnType<typeof importWithCounts>>>;

/** Where an import stands, in words. */
export const IMPORT_STATES: Readonly<Record<Import['state'], string>> = {
  reading: 'being looked at',
  open: 'being taken over',
  done: 'taken over',
  stopped: 'stopped',
  undone: 'taken back',
};

/** What became of a patient of an import, in words. */
export const ITEM_STATES: Readonly<Record<keyof Import['counts'], string>> = {
  waiting: 'still to be taken over',
  new: 'new patients',
  extended: 'known patients with visits or pieces added',
  same: 'known patients, all there already',
  refused: 'not taken over',
  stopped: 'left out when it was stopped',
  undone: 'taken back',
};

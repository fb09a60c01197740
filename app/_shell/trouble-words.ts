import type { StorageTrouble } from '@/db/sql/storage-trouble';

/** What keeps the program from saving, in a sentence, and what to do about it. */
export const TROUBLE_WORDS: Readonly<Record<StorageTrouble, string>> = {
  busy: 'Another program is holding the database, so nothing can be saved at the moment. Everything can be read. Try again in a minute.',
  full: 'The disk of the server is full, so nothing can be saved. Everything can be read. Tell whoever runs the server.',
  'read-only': 'The database may only be read, so nothing can be saved. Everything can be read. Tell whoever runs the server.',
};

/** The words for an error that a page met, by the mark it came with; undefined for any other error. */
export function troubleWords(digest: string | undefined): string | undefined {
  const [mark, box, most] = digest?.split('/') ?? [];
  if (mark === 'too-long') return `The box “${box}” holds more than ${most} characters. Nothing was saved. Shorten it and send it again.`;
  return Object.entries(TROUBLE_WORDS).find(([trouble]) => digest === `storage-${trouble}`)?.[1];
}

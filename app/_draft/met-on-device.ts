import { figuresOf } from '@/lib/entry/changed-figures';
import type { DraftContent } from '@/lib/entry/entry-data';
import { inOrder } from '@/lib/entry/in-order';
import type { CopyOnDevice } from './device-copy';

/** How a copy on the device and the draft on the server stand to each other. */
export type MetOnDevice = 'same' | 'goes on' | 'apart';

/**
 * What an opened sheet does with a copy that an earlier window left on this device.
 *
 * `same`: the server has it all. `goes on`: it was typed over just this draft, or holds every figure of it and more, so that taking it
 * loses nothing. `apart`: both hold something that the other has not, or the visit was corrected by somebody meanwhile; a person chooses.
 * Shape: the copy; the draft on the server (version 0 for none) or, without one, the form that a sheet starts from.
 */
export function metOnDevice(copy: CopyOnDevice, server: { readonly content: DraftContent; readonly version: number }): MetOnDevice {
  if (inOrder(copy.content.form) === inOrder(server.content.form)) return 'same';
  if (copy.content.base !== server.content.base) return 'apart';
  if (server.version === 0) return copy.version === 0 ? 'goes on' : 'apart';
  if (copy.content.submissionId !== server.content.submissionId) return 'apart';
  return copy.version === server.version || holdsAll(copy.content, server.content) ? 'goes on' : 'apart';
}

function holdsAll(copy: DraftContent, server: DraftContent): boolean {
  const mine = figuresOf(copy.form);
  return [...figuresOf(server.form)].every(([where, text]) => mine.get(where) === text);
}

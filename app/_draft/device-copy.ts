import type { DeviceKey, DraftContent } from '@/lib/entry/entry-data';
import type { VisitForm } from '@/lib/visit-form/visit-form';
import type { CopyStore } from './browser-store';
import { keyOf, sealed, unsealed } from './seal';

/** What the device holds of a draft: its content, and the version on the server that it was typed over. */
export type CopyOnDevice = { readonly content: DraftContent; readonly version: number };

/**
 * The copy of one draft on this device, for as long as the server does not have all of it.
 *
 * Writes one after another and only the newest that waits; `tell` hears whether what was written last is really there. Where the browser
 * keeps nothing, nothing fails: it is only told.
 */
export class DeviceCopy {
  private waiting: CopyOnDevice | 'drop' | null = null;
  private busy: Promise<void> | null = null;
  private readonly key: Promise<CryptoKey | undefined>;
  private readonly before: Promise<CopyOnDevice | undefined>;

  constructor(
    private readonly device: DeviceKey,
    private readonly store: CopyStore,
    private readonly tell: (isKept: boolean) => void,
  ) {
    this.key = keyOf(device.key).catch(() => undefined);
    this.before = this.look();
  }

  /** Writes a copy over the one before. */
  put(copy: CopyOnDevice): Promise<void> {
    return this.next(copy);
  }

  /** Takes the copy away: the server has all of it, or it was given up. */
  drop(): Promise<void> {
    return this.next('drop');
  }

  /** The copy that an earlier window left here, if there is one that this person's key opens and that has the shape of a draft. */
  found(): Promise<CopyOnDevice | undefined> {
    return this.before;
  }

  private async look(): Promise<CopyOnDevice | undefined> {
    try {
      const [key, copy] = await Promise.all([this.key, this.store.get(this.device.name)]);
      const value = key && copy && (await unsealed(key, this.device.name, copy));
      return asCopy(value);
    } catch {
      return undefined;
    }
  }

  private next(wish: CopyOnDevice | 'drop'): Promise<void> {
    this.waiting = wish;
    this.busy ??= this.work().finally(() => {
      this.busy = null;
    });
    return this.busy;
  }

  /** Nothing is written over a copy that was not looked at yet. */
  private async work(): Promise<void> {
    await this.before;
    while (this.waiting) {
      const wish = this.waiting;
      this.waiting = null;
      this.tell((await this.write(wish)) && wish !== 'drop');
    }
  }

  private async write(wish: CopyOnDevice | 'drop'): Promise<boolean> {
    try {
      const { name } = this.device;
      const key = await this.key;
      if (wish === 'drop') await this.store.drop(name);
      else if (key) await this.store.put(name, await sealed(key, name, wish));
      return key !== undefined;
    } catch {
      return false;
    }
  }
}

function asCopy(value: unknown): CopyOnDevice | undefined {
  const { content, version } = (value ?? {}) as Partial<CopyOnDevice>;
  const isDraft = isForm(content?.form) && typeof content?.submissionId === 'string' && typeof version === 'number';
  return isDraft ? { content, version } : undefined;
}

/**
 * Whether a form has the boxes that a sheet reads. It was sealed by this program, so that only an older shape could be met; what a form
 * may hold is the server's to check, whose schema library is not sent to a page.
 */
function isForm(form: VisitForm | undefined): boolean {
  const texts = [form?.day, form?.time, form?.posture, form?.measurer, form?.height, form?.weight, form?.note];
  const sheets =
    Array.isArray(form?.sheets) && form.sheets.every((sheet) => [sheet?.cells, sheet?.marks, sheet?.sides, sheet?.extras].every(Boolean));
  return sheets && Array.isArray(form.readings) && texts.every((text) => typeof text === 'string');
}

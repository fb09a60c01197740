import { OpenedStore } from './opened-store';
import type { Sealed } from './seal';

/** Where sealed copies lie, by a name that tells nothing. */
export type CopyStore = {
  readonly put: (name: string, copy: Sealed) => Promise<void>;
  readonly get: (name: string) => Promise<Sealed | undefined>;
  readonly drop: (name: string) => Promise<void>;
};

const DATABASE = 'rungwise';
const COPIES = 'drafts';

/** A copy that nobody has come back for in so many days is let go: its key may be gone with the server's secret. Clinic default. */
const KEPT_DAYS = 30;
const DAY_MS = 86_400_000;

type Stored = Sealed & { readonly keptAt: number };

/** The browser's own store (IndexedDB) on this device. Every call fails where the browser keeps none, as in some private windows. */
export function browserStore(): CopyStore {
  const store = new OpenedStore(DATABASE, COPIES);
  return {
    put: async (name, copy) => {
      const kept: Stored = { ...copy, keptAt: Date.now() };
      await store.ask('readwrite', (copies) => copies.put(kept, name));
    },
    get: async (name) => {
      await letOldGo(store);
      return (await store.ask('readonly', (copies) => copies.get(name))) as Stored | undefined;
    },
    drop: async (name) => {
      await store.ask('readwrite', (copies) => copies.delete(name));
    },
  };
}

async function letOldGo(store: OpenedStore): Promise<void> {
  const names = (await store.ask('readonly', (copies) => copies.getAllKeys())) as IDBValidKey[];
  for (const name of names) {
    const copy = (await store.ask('readonly', (copies) => copies.get(name))) as Stored | undefined;
    if (copy && Date.now() - copy.keptAt > KEPT_DAYS * DAY_MS) await store.ask('readwrite', (copies) => copies.delete(name));
  }
}

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
  return {
    put: async (name, copy) => {
      const kept: Stored = { ...copy, keptAt: Date.now() };
      await inStore('readwrite', (store) => store.put(kept, name));
    },
    get: async (name) => {
      await withoutOld();
      return (await inStore('readonly', (store) => store.get(name))) as Stored | undefined;
    },
    drop: async (name) => {
      await inStore('readwrite', (store) => store.delete(name));
    },
  };
}

async function withoutOld(): Promise<void> {
  const names = (await inStore('readonly', (store) => store.getAllKeys())) as IDBValidKey[];
  for (const name of names) {
    const copy = (await inStore('readonly', (store) => store.get(name))) as Stored | undefined;
    if (copy && Date.now() - copy.keptAt > KEPT_DAYS * DAY_MS) await inStore('readwrite', (store) => store.delete(name));
  }
}

/** One request in a transaction of its own; done when the transaction is, so that what is said to be kept is kept. */
async function inStore(mode: IDBTransactionMode, ask: (store: IDBObjectStore) => IDBRequest): Promise<unknown> {
  const database = await openedDatabase();
  try {
    return await new Promise((resolve, reject) => {
      const transaction = database.transaction(COPIES, mode, { durability: 'strict' });
      const request = ask(transaction.objectStore(COPIES));
      transaction.oncomplete = () => resolve(request.result);
      transaction.onabort = () => reject(transaction.error);
      transaction.onerror = () => reject(transaction.error);
    });
  } finally {
    database.close();
  }
}

function openedDatabase(): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(DATABASE, 1);
    request.onupgradeneeded = () => request.result.createObjectStore(COPIES);
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
    request.onblocked = () => reject(new Error('The store is held by another version of this page.'));
  });
}

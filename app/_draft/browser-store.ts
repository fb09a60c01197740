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
  const store = new OpenedStore();
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

/** The database, opened at the first request and kept open: a figure typed costs a write, not an opening and a closing around it. */
class OpenedStore {
  private opening: Promise<IDBDatabase> | undefined;

  /** One request in a transaction of its own; done when the transaction is, so that what is said to be kept is kept. */
  async ask(mode: IDBTransactionMode, request: (copies: IDBObjectStore) => IDBRequest): Promise<unknown> {
    const database = await this.database();
    return new Promise((resolve, reject) => {
      const transaction = database.transaction(COPIES, mode, { durability: 'strict' });
      const asked = request(transaction.objectStore(COPIES));
      transaction.oncomplete = () => resolve(asked.result);
      transaction.onabort = () => reject(transaction.error);
      transaction.onerror = () => reject(transaction.error);
    });
  }

  private database(): Promise<IDBDatabase> {
    this.opening ??= openedDatabase(() => {
      this.opening = undefined;
    });
    this.opening.catch(() => {
      this.opening = undefined;
    });
    return this.opening;
  }
}

/** `gone` hears when the connection is no more: the browser closed it, or another version of the page wants the database. */
function openedDatabase(gone: () => void): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(DATABASE, 1);
    request.onupgradeneeded = () => request.result.createObjectStore(COPIES);
    request.onsuccess = () => {
      const database = request.result;
      database.onclose = gone;
      database.onversionchange = () => {
        database.close();
        gone();
      };
      resolve(database);
    };
    request.onerror = () => reject(request.error);
    request.onblocked = () => reject(new Error('The store is held by another version of this page.'));
  });
}

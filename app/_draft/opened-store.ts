/** One store of a browser's database, opened at the first request and kept open: a figure typed costs a write, not an opening and a closing around it. */
export class OpenedStore {
  private opening: Promise<IDBDatabase> | undefined;

  constructor(
    private readonly name: string,
    private readonly store: string,
  ) {}

  /** One request in a transaction of its own; done when the transaction is, so that what is said to be kept is kept. */
  async ask(mode: IDBTransactionMode, request: (store: IDBObjectStore) => IDBRequest): Promise<unknown> {
    const database = await this.database();
    return new Promise((resolve, reject) => {
      const transaction = database.transaction(this.store, mode, { durability: 'strict' });
      const asked = request(transaction.objectStore(this.store));
      transaction.oncomplete = () => resolve(asked.result);
      transaction.onabort = () => reject(transaction.error);
      transaction.onerror = () => reject(transaction.error);
    });
  }

  private database(): Promise<IDBDatabase> {
    this.opening ??= openedDatabase(this.name, this.store, () => {
      this.opening = undefined;
    });
    this.opening.catch(() => {
      this.opening = undefined;
    });
    return this.opening;
  }
}

/** `gone` hears when the connection is no more: the browser closed it, or another version of the page wants the database. */
function openedDatabase(name: string, store: string, gone: () => void): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(name, 1);
    request.onupgradeneeded = () => request.result.createObjectStore(store);
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

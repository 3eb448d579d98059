// The phone's database from outside: written as an earlier page left it, and
// read without the page's own code.
import type { Page } from "playwright-core";

interface Fixture {
  version: number;
  stores: Record<string, { keyPath: string | string[] | null; indexes?: string[]; records: object[] }>;
}

/** Writes a whole database. The page must be of the origin and not have one open. */
export function writeMemory(page: Page, fixture: Fixture): Promise<void> {
  return page.evaluate(
    ({ version, stores }) =>
      new Promise<void>((resolve, reject) => {
        const open = indexedDB.open("halfsplit", version);
        open.onerror = () => reject(open.error);
        open.onupgradeneeded = () => {
          for (const [name, { keyPath, indexes = [] }] of Object.entries(stores)) {
            const store = open.result.createObjectStore(name, keyPath ? { keyPath } : {});
            for (const index of indexes) store.createIndex(index, index);
          }
        };
        open.onsuccess = () => {
          const db = open.result;
          const tx = db.transaction(Object.keys(stores), "readwrite");
          for (const [name, { keyPath, records }] of Object.entries(stores)) {
            for (const record of records) {
              const { key, value } = record as { key: string; value: unknown };
              if (keyPath) tx.objectStore(name).put(record);
              else tx.objectStore(name).put(value, key);
            }
          }
          tx.oncomplete = () => {
            db.close();
            resolve();
          };
          tx.onerror = () => reject(tx.error);
        };
      }),
    fixture,
  );
}

export interface Memory {
  version: number;
  /** By store; settings as [name, value]. Pictures are given as their size. */
  stores: Record<string, Record<string, unknown>[]>;
}

export function readMemory(page: Page): Promise<Memory> {
  return page.evaluate(
    () =>
      new Promise<Memory>((resolve, reject) => {
        const open = indexedDB.open("halfsplit");
        open.onerror = () => reject(open.error);
        open.onsuccess = () => {
          const db = open.result;
          if (db.objectStoreNames.length === 0) return reject(new Error("the database is empty"));
          const tx = db.transaction([...db.objectStoreNames]);
          const stores: Memory["stores"] = {};
          for (const name of db.objectStoreNames) {
            const list: Record<string, unknown>[] = (stores[name] = []);
            tx.objectStore(name).openCursor().onsuccess = ({ target }) => {
              const at = (target as IDBRequest<IDBCursorWithValue | null>).result;
              if (!at) return;
              const value = name === "settings" ? { key: at.key, value: at.value as unknown } : { ...(at.value as object) };
              for (const [field, held] of Object.entries(value)) {
                if (held instanceof Blob) (value as Record<string, unknown>)[field] = held.size;
              }
              list.push(value);
              at.continue();
            };
          }
          tx.oncomplete = () => {
            const { version } = db;
            db.close();
            resolve({ version, stores });
          };
        };
      }),
  );
}

/** Changes records directly, as time or another program would. */
export function putRecords(page: Page, store: string, records: object[]): Promise<void> {
  return page.evaluate(
    ([name, list]) =>
      new Promise<void>((resolve, reject) => {
        const open = indexedDB.open("halfsplit");
        open.onerror = () => reject(open.error);
        open.onsuccess = () => {
          const db = open.result;
          const tx = db.transaction(name, "readwrite");
          for (const record of list) {
            if (name === "settings") {
              const { key, value } = record as { key: string; value: string };
              tx.objectStore(name).put(value, key);
            } else tx.objectStore(name).put(record);
          }
          tx.oncomplete = () => {
            db.close();
            resolve();
          };
          tx.onerror = () => reject(tx.error);
        };
      }),
    [store, records] as const,
  );
}

// What this phone has noted, in its own database: it outlives the page, the browser and a day without a signal. The
// page and the worker both use it, so nothing here may touch the page.

/** A note as the server takes it. */
export type Note = {
  id: string;
  at: string;
  by: string;
  about: string;
  kind: string;
  value?: Value;
  words?: string;
  photos?: string[];
  replaces?: string;
};

/** The figure or date of a note. */
export type Value =
  | { share: string }
  | { when: string }
  | { length: string }
  | { temperature: string }
  | { humidity: string }
  | { reading: { what: string; figure: string } };

/** A note on its way. */
export type Queued = {
  id: string;
  job: string;
  note: Note;
  /** What it is about, as a person says it. */
  name: string;
  /** When it was written, by this phone's clock. */
  made: number;
  state: "waits" | "sent" | "refused";
  /** When the server had it, by this phone's clock. */
  sent?: number;
  /** Why the server would not have it. */
  why?: string;
};

/** A photo on its way. */
export type Photo = {
  /** Job and key, for the database. */
  id: string;
  job: string;
  /** The SHA-256 of its bytes, in hexadecimal. */
  key: string;
  bytes: ArrayBuffer;
  taken?: string;
  facing?: number;
  made: number;
  state: "waits" | "sent" | "refused";
  why?: string;
};

const NOTES = "notes";
const PHOTOS = "photos";

let opened: Promise<IDBDatabase> | undefined;

function open(): Promise<IDBDatabase> {
  opened ??= new Promise((open, fail) => {
    const request = indexedDB.open("grounds", 1);
    request.onupgradeneeded = () => {
      request.result.createObjectStore(NOTES, { keyPath: "id" });
      request.result.createObjectStore(PHOTOS, { keyPath: "id" });
    };
    request.onsuccess = () => open(request.result);
    request.onerror = () => fail(request.error);
  });
  opened.catch(() => (opened = undefined));
  return opened;
}

/** Runs one transaction; what it asks for is there when it is safe on the disk. */
async function within<T>(mode: IDBTransactionMode, work: (notes: IDBObjectStore, photos: IDBObjectStore) => () => T): Promise<T> {
  const database = await open();
  return new Promise((done, fail) => {
    const transaction = database.transaction([NOTES, PHOTOS], mode, mode === "readwrite" ? { durability: "strict" } : {});
    const result = work(transaction.objectStore(NOTES), transaction.objectStore(PHOTOS));
    transaction.oncomplete = () => done(result());
    transaction.onabort = () => fail(transaction.error);
    transaction.onerror = () => fail(transaction.error);
  });
}

/** Keeps a note with its photos: all of it or nothing. */
export function keep(queued: Queued, photos: Photo[]): Promise<void> {
  return within("readwrite", (notes, store) => {
    notes.put(queued);
    for (const photo of photos) store.put(photo);
    return () => undefined;
  });
}

/** Everything that was noted, the oldest first. */
export function noted(): Promise<Queued[]> {
  return within("readonly", (notes) => {
    const all = notes.getAll() as IDBRequest<Queued[]>;
    return () => all.result.sort((a, b) => a.made - b.made || (a.id < b.id ? -1 : 1));
  });
}

/** The photos that are still here, the oldest first, without their bytes. */
export function photosHere(): Promise<Omit<Photo, "bytes">[]> {
  return within("readonly", (_, photos) => {
    const all = photos.getAll() as IDBRequest<Photo[]>;
    return () => all.result.map(({ bytes: _, ...rest }) => rest).sort((a, b) => a.made - b.made);
  });
}

/** One photo. */
export function photo(id: string): Promise<Photo | undefined> {
  return within("readonly", (_, photos) => {
    const one = photos.get(id) as IDBRequest<Photo | undefined>;
    return () => one.result;
  });
}

/** Changes notes that are still here. */
export function change(ids: string[], how: (queued: Queued) => Queued): Promise<void> {
  return within("readwrite", (notes) => {
    for (const id of ids) {
      const one = notes.get(id) as IDBRequest<Queued | undefined>;
      one.onsuccess = () => one.result && notes.put(how(one.result));
    }
    return () => undefined;
  });
}

/** A photo that the server has, or will not have: its bytes go as soon as the server has it. */
export function photoIs(id: string, state: "sent" | "refused", why?: string): Promise<void> {
  return within("readwrite", (_, photos) => {
    if (state === "sent") photos.delete(id);
    else {
      const one = photos.get(id) as IDBRequest<Photo | undefined>;
      one.onsuccess = () => one.result && photos.put({ ...one.result, state, ...(why === undefined ? {} : { why }) });
    }
    return () => undefined;
  });
}

/** Lets go of notes, and of photos that no other note names. */
export function drop(ids: string[]): Promise<void> {
  return within("readwrite", (notes, photos) => {
    const all = notes.getAll() as IDBRequest<Queued[]>;
    all.onsuccess = () => {
      const named = (queued: Queued): string[] => (queued.note.photos ?? []).map((key) => `${queued.job}/${key}`);
      const [going, staying] = [all.result.filter((one) => ids.includes(one.id)), all.result.filter((one) => !ids.includes(one.id))];
      const needed = new Set(staying.flatMap(named));
      for (const one of going) notes.delete(one.id);
      for (const id of going.flatMap(named)) if (!needed.has(id)) photos.delete(id);
    };
    return () => undefined;
  });
}

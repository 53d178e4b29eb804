// What this browser keeps of the build logs: entries as text, under the address of their log and their key, and
// photos in a database until the server has them.
//
// To a browser the network of a workshop is no secure context: only what works there is used.

let opened;
const files = () => opened ??= new Promise((resolve) => {
  try {
    const open = indexedDB.open("fettle-log", 1);
    open.onupgradeneeded = () => open.result.createObjectStore("photos");
    open.onsuccess = () => resolve(open.result);
    open.onerror = () => resolve(null);
  } catch {
    resolve(null);
  }
});
const inFiles = async (mode, act) => {
  const db = await files();
  if (!db) return undefined;
  return new Promise((resolve) => {
    try {
      const change = db.transaction("photos", mode);
      const asked = act(change.objectStore("photos"));
      change.oncomplete = () => resolve(asked.result);
      change.onerror = change.onabort = () => resolve(undefined);
    } catch {
      resolve(undefined);
    }
  });
};
// keepFile tells whether the file is kept.
export const keepFile = async (id, file) => await inFiles("readwrite", (photos) => photos.put(file, id)) === id;
export const fileOf = (id) => inFiles("readonly", (photos) => photos.get(id));
export const dropFile = (id) => inFiles("readwrite", (photos) => photos.delete(id));

export const newKey = () => [...crypto.getRandomValues(new Uint8Array(16))].map((b) => b.toString(16).padStart(2, "0")).join("");

const mark = "fettle";
const nameOf = (log, key) => `${mark} ${log} ${key}`;

export const isBlank = (e) => !e.photos.length && ["text", "hours", "cost"].every((name) => !e.fields[name].trim());

// keepEntry tells whether the entry is kept; one with nothing in it need not be. What another page has sent of it
// stays sent.
export const keepEntry = (log, e) => {
  try {
    if (isBlank(e)) localStorage.removeItem(nameOf(log, e.key));
    else {
      const photos = e.photos.map(({ id, sha256, caption, role, name }) => ({ id, sha256: sha256 ?? sumOf(log, e.key, id), caption, role, name }));
      localStorage.setItem(nameOf(log, e.key), JSON.stringify({ key: e.key, fields: e.fields, photos, done: e.done, changed: Date.now() }));
    }
    return true;
  } catch {
    return false;
  }
};

export const forgetEntry = (log, e) => {
  try { localStorage.removeItem(nameOf(log, e.key)); } catch { /* there was none */ }
  e.photos.forEach(({ id }) => dropFile(id));
};

// keptEntry is undefined where it is not kept, or no longer.
export const keptEntry = (log, key) => {
  try { return JSON.parse(localStorage.getItem(nameOf(log, key))) ?? undefined; } catch { return undefined; }
};

// sumOf is the SHA-256 of a photo that the server has.
export const sumOf = (log, key, id) => keptEntry(log, key)?.photos.find((photo) => photo.id === id)?.sha256;

// keptEntries are those of all logs, each with its log, what was changed last first.
export const keptEntries = () => {
  try {
    return Object.keys(localStorage).map((name) => name.split(" "))
      .filter(([is, log, key]) => is === mark && log && key && keptEntry(log, key))
      .map(([, log, key]) => ({ log, ...keptEntry(log, key) })).sort((a, b) => b.changed - a.changed);
  } catch {
    return [];
  }
};

// photoCame notes that the server has a photo of an entry. One that was chosen twice is one.
export const photoCame = (log, key, id, sha256) => {
  const e = keptEntry(log, key);
  if (!e) return;
  const twice = e.photos.some((photo) => photo.id !== id && photo.sha256 === sha256);
  e.photos = e.photos.filter((photo) => photo.id !== id || !twice).map((photo) => photo.id === id ? { ...photo, sha256 } : photo);
  keepEntry(log, e);
  dropFile(id);
};

// The form of an entry. A photo goes as soon as it is chosen, by itself; an entry that is begun is kept in the
// browser; one that is done and finds no answer is left to the outbox. Without all this the form is sent whole.
import { dropFile, fileOf, forgetEntry, isBlank, keepEntry, keepFile, keptEntries, keptEntry, newKey, photoCame, sumOf } from "./kept.js";
import { hold, onPage, release, show } from "./outbox.js";
import { arrived, bind, inOrder, list, progress, rowOf, rowsOf, state } from "./photo-rows.js";
import { fieldNames, sendEntry, sendPhoto, takeBack } from "./sending.js";
import { buttonFor, lineOf, linkTo, textOf } from "./waiting.js";

const form = document.getElementById("entry-form");
const { log, mostBytes, mostPhotos } = form.dataset;
const isNew = "new" in form.dataset;
const atOnce = 3; // uploads

const keep = (e) => {
  if (!isNew) return;
  if (!keepEntry(log, e) || e.photos.some(({ sha256, unkept }) => unkept && !sha256)) return tell("This browser keeps no draft: save before you leave.");
  tell(isBlank(e) || e.done ? "" : "Kept in this browser until you save it.");
};
const tell = (sentence) => {
  const told = document.getElementById("draft-told");
  if (told && told.textContent !== sentence) told.textContent = sentence;
};

// -- the entry in the form --

let current = { key: form.elements.key.value, fields: {}, photos: [], done: false };
const begun = []; // those that are kept, and are neither done nor in the form

const readForm = () => {
  for (const name of fieldNames) current.fields[name] = form.elements[name].value;
  current.photos = rowsOf().map((row) => {
    row.photo.caption = row.querySelector("input[type=text]").value;
    row.photo.role = row.querySelector("select").value;
    return row.photo;
  });
};
const fillForm = (e) => {
  current = e;
  form.elements.key.value = e.key;
  for (const name of fieldNames) form.elements[name].value = e.fields[name];
  if (form.elements.about.selectedIndex < 0) form.elements.about.selectedIndex = 0; // it is gone
  list.replaceChildren(...e.photos.map(rowOf));
  inOrder();
  document.getElementById("entry-more").open ||= ["hours", "cost"].some((name) => e.fields[name]);
  tell("Kept in this browser until you save it.");
};
const blankForm = () => {
  const fields = Object.fromEntries(fieldNames.map((name) => [name, form.elements[name].value]));
  Object.assign(fields, { text: "", hours: "", cost: "", at: now() });
  fillForm({ key: newKey(), fields, photos: [], done: false });
  tell("");
};
const now = () => {
  const at = new Date();
  return new Date(at - at.getTimezoneOffset() * 60_000).toISOString().slice(0, 16);
};

// -- photos go, a few at a time; one that breaks off is tried again --

let running = 0;
let submitting = false; // the change of an entry goes once its photos have come
const pump = () => {
  for (const photo of current.photos) {
    if (running < atOnce && photo.state === "waits") photo.going = send(current, photo);
  }
};
const send = async (e, photo) => {
  running++;
  state(photo, "goes", `${photo.name}: is sent`);
  const file = photo.file || await fileOf(photo.id);
  const sum = sumOf(log, e.key, photo.id); // another page has sent it meanwhile
  let reply = !file && sum ? { is: "came", sha256: sum } : { is: "refused", say: "this browser has not kept it; choose it again." };
  if (file && photo.state !== "gone") {
    reply = await sendPhoto(log, e.key, file, { started: (xhr) => { photo.xhr = xhr; }, progress: (part) => progress(photo, part) });
  }
  running--;
  photo.xhr = photo.going = null;
  if (photo.state === "gone") {
    dropFile(photo.id);
    if (reply.is === "came") takeBack(log, e.key, reply.sha256);
  } else if (reply.is === "came") came(e, photo, reply.sha256);
  else if (reply.is === "waits") {
    state(photo, "waits", `${photo.name}: ${reply.say || "no answer."} It is sent again by itself.`);
    later();
  } else state(photo, "refused", `${photo.name}: ${reply.say || "it was not taken."}`);
  if (e.done) deliver(e);
  if (reply.is !== "waits" || photo.state === "gone") pump();
};
const came = (e, photo, sha256) => {
  if (e !== current) return photoCame(log, e.key, photo.id, sha256); // it is the outbox's
  dropFile(photo.id);
  if (e.photos.some((other) => other !== photo && other.sha256 === sha256)) { // chosen twice
    photo.row.remove();
    e.photos = e.photos.filter((other) => other !== photo);
    inOrder();
  } else {
    photo.sha256 = sha256;
    photo.file = null;
    arrived(photo);
  }
  keep(e);
  if (submitting && e.photos.every((other) => other.sha256)) form.submit();
};

let pause = 1000;
let timer = 0;
const again = () => {
  clearTimeout(timer);
  timer = 0;
  pump();
  if (current.done) deliver(current);
};
const later = () => {
  if (timer) return;
  timer = setTimeout(again, pause);
  pause = Math.min(pause * 2, 30_000);
};
addEventListener("online", again);
document.addEventListener("visibilitychange", () => { if (!document.hidden) again(); });

// -- an entry is delivered, or left to the outbox --

const deliver = async (e) => {
  if (e !== current || e.going) return;
  const left = e.photos.filter((photo) => !photo.sha256);
  if (left.some((photo) => photo.state === "refused")) {
    return backToForm(e, "A photo was not taken. Take it away, or try it again; then save the entry.");
  }
  if (left.some((photo) => photo.state === "waits") && timer) return leave(e);
  if (left.length) {
    tell(`Saved as soon as ${left.length === 1 ? "the photo has" : `${left.length} photos have`} arrived.`);
    return pump();
  }
  e.going = true;
  const going = JSON.stringify(saidIn(e));
  const reply = await sendEntry(log, e);
  e.going = false;
  if (reply.is === "waits") return leave(e, reply);
  if (reply.is === "refused") {
    backToForm(e, "");
    return form.submit(); // the page says what is wrong, at its field
  }
  if (going !== JSON.stringify(saidIn(e))) return change(e);
  forgetEntry(log, e);
  location.assign(placeOf(e));
};
const saidIn = ({ fields, photos }) => [fields, photos.map(({ id, sha256, caption, role }) => [sha256 ?? id, caption, role])];
const placeOf = ({ key, fields }) =>
  `${fields.in ? `${log.slice(0, -"/log".length)}/upgrades/${encodeURIComponent(fields.in)}/log` : log}?saved=${key}`;
// change saves what was typed while the entry was on its way, as the first change of it.
const change = (e) => {
  e.done = false;
  keep(e);
  form.action = `${log}/${e.key}`;
  form.elements.revision.value = 1;
  submitting = true;
  if (e.photos.every(({ sha256 }) => sha256)) return form.submit();
  tell("Saved as soon as the photos have arrived.");
  return pump();
};
const backToForm = (e, say) => {
  e.done = false;
  keep(e);
  release(e.key);
  tell(say);
};
// An entry that has to wait makes room for another in the form, where the browser keeps all of it. What is on its
// way of it arrives first.
const leave = async (e, reply) => {
  const files = await Promise.all(e.photos.filter(({ sha256 }) => !sha256).map(({ id }) => fileOf(id)));
  if (e !== current) return; // it has left meanwhile
  if (!keptEntry(log, e.key)?.done || !files.every(Boolean)) {
    tell(`${reply?.say || "Fettle does not answer."} This browser keeps nothing: leave this page open. It is sent again by itself.`);
    return later();
  }
  blankForm();
  e.photos.forEach((photo) => { photo.row = null; });
  show();
  await Promise.all(e.photos.map(({ going }) => going));
  release(e.key, reply);
};

const toForm = ({ key }, taken) => buttonFor("Into the form", () => {
  readForm();
  if (!isBlank(current)) return tell("The form is not empty: save what is in it first.");
  const e = keptEntry(log, key);
  taken();
  if (!e) return show(); // another page has saved it, or thrown it away
  e.done = false;
  e.photos.forEach((photo) => { photo.state = photo.sha256 ? "came" : "waits"; });
  fillForm(e);
  keep(e);
  show();
  pump();
  return form.elements.text.focus();
});
const takeOut = (e) => begun.splice(begun.indexOf(e), 1);
onPage.inForm = () => current.key;
if (isNew) {
  onPage.actions = (e) => [e.log === log ? toForm(e, () => {}) : linkTo("To its log", e.log)];
  onPage.lines = () => begun.map((e) => lineOf("Begun.", textOf(e), "It was begun elsewhere in this log, and is kept in this browser.",
    [toForm(e, () => takeOut(e)), buttonFor("Throw away", () => { forgetEntry(log, e); takeOut(e); show(); })]));
  onPage.allSent = (e) => { if (e.log === log && isBlank(current)) location.assign(placeOf(e)); };
}

// -- what a hand does --

const begin = () => {
  if (!current.begun && isNew) form.elements.at.value = current.fields.at = now();
  current.begun = true;
};
const changed = (event) => {
  if (event.target.type === "file") return;
  readForm();
  if (event.target.name !== "at") begin();
  current.begun = true;
  keep(current);
};
form.addEventListener("input", changed);
form.addEventListener("change", changed);

const keepPhoto = async (photo) => {
  photo.unkept = !await keepFile(photo.id, photo.file);
  if (photo.unkept) keep(current);
};
form.elements.files.addEventListener("change", (event) => {
  const chosen = [...event.target.files];
  event.target.value = "";
  readForm();
  for (const file of chosen) {
    const photo = { id: newKey(), name: file.name, file, caption: "", role: "" };
    list.append(rowOf(photo));
    current.photos.push(photo);
    if (file.size > mostBytes) state(photo, "refused", `${file.name}: it is larger than ${mostBytes / 2 ** 20} MB; send a smaller one.`);
    else if (current.photos.length > mostPhotos) state(photo, "refused", `${file.name}: an entry has at most ${mostPhotos} photos.`);
    else if (isNew) keepPhoto(photo);
  }
  begin();
  inOrder();
  keep(current);
  pump();
});

const drop = (row) => {
  const { photo } = row;
  const next = row.nextElementSibling || row.previousElementSibling;
  photo.state = "gone";
  photo.xhr?.abort();
  dropFile(photo.id);
  if (photo.sha256) takeBack(log, current.key, photo.sha256);
  row.remove();
  (next?.querySelector("[value^='drop.']") || form.elements.files).focus();
};
list.addEventListener("click", (event) => {
  const button = event.target.closest("button");
  const row = button?.closest(".photo-row");
  if (!row) return;
  event.preventDefault();
  const does = button.value.split(".")[0];
  if (does === "up" && row.previousElementSibling) row.previousElementSibling.before(row);
  else if (does === "down" && row.nextElementSibling) row.nextElementSibling.after(row);
  else if (does === "drop") drop(row);
  else if (button.classList.contains("photo-again")) state(row.photo, "waits", `${row.photo.name}: waits`);
  readForm();
  inOrder();
  keep(current);
  if (does === "up" || does === "down") (button.disabled ? row.querySelector("button[name=do]:not(:disabled)") : button).focus();
  pump();
});

form.addEventListener("submit", (event) => {
  readForm();
  const left = current.photos.some((photo) => !photo.sha256);
  if (!isNew && !left) return; // as without scripts
  event.preventDefault();
  if (!isNew) {
    submitting = true;
    tell("Saved as soon as the photos have arrived.");
    return;
  }
  if (isBlank(current)) return tell("Write a line, or add a photo.");
  current.done = true;
  hold(current.key);
  keep(current);
  deliver(current);
});

// -- what is there when the page opens --

form.classList.add("entry-live");
for (const row of rowsOf()) bind(row, { id: "", sha256: row.dataset.sha256, name: "" });
readForm();
const saved = new URLSearchParams(location.search).get("saved");
for (const e of keptEntries().filter((kept) => kept.log === log)) {
  e.photos.forEach((photo) => { photo.state = photo.sha256 ? "came" : "waits"; });
  if (e.key === saved || !isNew && e.key === current.key) forgetEntry(log, e);
  else if (!isNew || e.done) continue; // it is the outbox's
  else if (e.key === current.key) { // the server has what was typed, and the browser what has not come
    for (const photo of e.photos.filter(({ sha256 }) => !sha256)) list.append(rowOf(photo));
    readForm();
    inOrder();
  } else if (isBlank(current) && !("typed" in form.dataset) && e.fields.in === current.fields.in && !location.search.includes("about=")) {
    e.begun = true;
    fillForm(e);
  } else begun.push(e);
}
show();
pump();

// An entry of a build log that is done and found no answer is sent from whatever page of Fettle is open, and the
// page says so: a log beside its form, any other above all else.
import { fileOf, forgetEntry, keptEntries, keptEntry, photoCame, sumOf } from "./kept.js";
import { sendEntry, sendPhoto } from "./sending.js";
import { buttonFor, countOf, lineOf, linkTo, showLines, textOf, waitingLine } from "./waiting.js";

const told = document.getElementById("outbox") ?? document.getElementById("outbox-told");
const longest = 30_000; // ms between two tries
const held = new Set(); // keys of entries that a form sends itself
const replies = new Map(); // the last one to an entry, by its key
const sent = [];
const done = () => keptEntries().filter((e) => e.done);
const waiting = () => done().filter(({ key }) => !held.has(key));

// onPage is what a log's own script makes different.
export const onPage = { inForm: () => "", actions: (e) => [linkTo("To its log", e.log)], lines: () => [], allSent: () => {} };

export const hold = (key) => held.add(key);
export const release = (key, reply = {}) => {
  held.delete(key);
  replies.set(key, reply);
  show();
  again();
};

// deliver sends what has not come of an entry. What is kept is read anew at each step: another page may have
// sent some of it, or put it back into its form.
const deliver = async (log, key) => {
  for (;;) {
    const e = keptEntry(log, key);
    if (!e?.done) return { is: "gone" };
    const photo = e.photos.find(({ sha256 }) => !sha256);
    if (!photo) {
      const reply = await sendEntry(log, e);
      if (reply.is === "came" && keptEntry(log, key)?.done) forgetEntry(log, e);
      return reply;
    }
    const file = await fileOf(photo.id);
    if (!file && sumOf(log, key, photo.id)) continue; // another page has sent it meanwhile
    if (!file && !keptEntry(log, key)) return { is: "gone" };
    if (!file) return { is: "refused", say: `This browser has not kept ${photo.name}: put the entry into its form, and choose the photo again or take it away.` };
    const reply = await sendPhoto(log, key, file);
    if (reply.is !== "came") return { ...reply, say: reply.say && `${photo.name}: ${reply.say}` };
    photoCame(log, key, photo.id, reply.sha256);
  }
};

let pause = 1000;
let timer = 0;
let busy = false;
export const round = async () => {
  if (busy) return;
  busy = true;
  clearTimeout(timer);
  timer = 0;
  let left = false;
  for (const e of waiting()) {
    const reply = await deliver(e.log, e.key);
    replies.set(e.key, reply);
    if (reply.is === "came") {
      sent.push(e);
      pause = 1000;
    }
    left ||= reply.is === "waits";
    show();
    if (left && (!reply.status || reply.status === 401)) break; // the others would fare no better
  }
  busy = false;
  show();
  if (left) {
    again();
    pause = Math.min(pause * 2, longest);
  } else if (sent.length && !waiting().length) onPage.allSent(sent.at(-1));
};
const again = () => {
  timer ||= setTimeout(round, document.hidden ? longest : pause);
};

const lineFor = (e) => {
  const reply = replies.get(e.key);
  if (reply?.is !== "refused") return waitingLine(e, reply, buttonFor("Send now", round), ...onPage.actions(e));
  const throwAway = buttonFor("Throw away", () => {
    forgetEntry(e.log, e);
    show();
  });
  return lineOf("Not taken.", textOf(e), reply.say || "Something in it was not taken: put it back into its form, and save it there.",
    reply.status === 404 ? [throwAway, ...onPage.actions(e)] : onPage.actions(e));
};
export const show = () => showLines(told, [
  ...done().filter(({ key }) => key !== onPage.inForm()).map(lineFor),
  ...sent.map((e) => lineOf("Sent.", textOf(e), "It waited in this browser, and is in the log now.", [linkTo("To its log", e.log)])),
  ...onPage.lines(),
]);

// Whoever is not signed in is told that nothing is lost, and not what stands in it.
const showToStranger = () => {
  const all = keptEntries();
  if (!all.length) return;
  showLines(told, [lineOf("Kept in this browser:", countOf(all.length, "entry of a build log", "entries of build logs"),
    "What is done is sent once you have signed in; what was begun is in its log then.", [])]);
};

if (document.querySelector(".sign-in")) showToStranger();
else {
  round();
  addEventListener("online", round);
  addEventListener("pageshow", (event) => { if (event.persisted) round(); });
  addEventListener("storage", () => { // another page has kept something, and sends it first; or has sent it
    if (told.firstElementChild) show();
    if (waiting().length) again();
  });
  document.addEventListener("visibilitychange", () => { if (!document.hidden) round(); });
}

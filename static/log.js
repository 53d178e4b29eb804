// The build log. A photo goes as soon as it is chosen, by itself; an entry that is begun is kept in the
// browser; one that is done and finds no answer waits here, and is sent once there is one. The server keeps
// an entry once, by its key, however often it is sent. Without all this the form is sent whole.
//
// To a browser the network of a workshop is no secure context: only what works there is used.
(() => {
  "use strict";

  // -- before and after: a slider moves the edge between two photos --

  for (const pair of document.querySelectorAll("[data-compare]")) {
    const slider = pair.querySelector("input[type=range]");
    const first = pair.querySelector("img");
    const move = () => {
      pair.style.setProperty("--compare-edge", `${slider.value}%`);
      slider.setAttribute("aria-valuetext", `${slider.value} % before, ${100 - slider.value} % after`);
    };
    pair.style.setProperty("--compare-ratio", `${first.getAttribute("width")} / ${first.getAttribute("height")}`);
    pair.classList.add("compare-live");
    slider.addEventListener("input", move);
    move();
  }

  const form = document.getElementById("entry-form");
  if (!form) return;
  const { log, mostBytes, mostPhotos } = form.dataset;
  const isNew = "new" in form.dataset;
  const list = document.getElementById("photo-list");
  const pattern = document.getElementById("photo-row");
  const outbox = document.getElementById("outbox");
  const fieldNames = ["text", "at", "about", "hours", "cost", "currency", "in"];
  const atOnce = 3; // uploads
  const stalled = 60_000; // ms without progress: the network is gone, and has not said so

  // -- what the browser keeps: entries as text, photos in a database --

  const prefix = `fettle ${log} `;
  const files = new Promise((resolve) => {
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
    const db = await files;
    if (!db) return undefined;
    return new Promise((resolve) => {
      const change = db.transaction("photos", mode);
      const asked = act(change.objectStore("photos"));
      change.oncomplete = () => resolve(asked.result);
      change.onerror = change.onabort = () => resolve(undefined);
    });
  };
  const keepFile = (id, file) => inFiles("readwrite", (photos) => photos.put(file, id));
  const fileOf = (id) => inFiles("readonly", (photos) => photos.get(id));
  const dropFile = (id) => inFiles("readwrite", (photos) => photos.delete(id));

  const isBlank = (e) => !e.photos.length && ["text", "hours", "cost"].every((name) => !e.fields[name].trim());
  const keep = (e) => {
    if (!isNew) return;
    try {
      if (isBlank(e)) localStorage.removeItem(prefix + e.key);
      else {
        const photos = e.photos.map(({ id, sha256, caption, role, name }) => ({ id, sha256, caption, role, name }));
        localStorage.setItem(prefix + e.key, JSON.stringify({ key: e.key, fields: e.fields, photos, done: e.done, changed: Date.now() }));
      }
      tell(isBlank(e) || e.done ? "" : "Kept in this browser until you save it.");
    } catch {
      tell("This browser keeps no draft: save before you leave.");
    }
  };
  const forget = (e) => {
    try { localStorage.removeItem(prefix + e.key); } catch { /* there was none */ }
    e.photos.forEach(({ id }) => dropFile(id));
  };
  const kept = () => {
    try {
      return Object.keys(localStorage).filter((name) => name.startsWith(prefix))
        .map((name) => JSON.parse(localStorage.getItem(name))).sort((a, b) => b.changed - a.changed);
    } catch {
      return [];
    }
  };
  const newKey = () => [...crypto.getRandomValues(new Uint8Array(16))].map((b) => b.toString(16).padStart(2, "0")).join("");

  const tell = (sentence) => {
    const told = document.getElementById("draft-told");
    if (told && told.textContent !== sentence) told.textContent = sentence;
  };

  // -- the entry in the form --

  const rowsOf = () => [...list.querySelectorAll(":scope > .photo-row")];
  let current = { key: form.elements.key.value, fields: {}, photos: [], done: false };
  let waiting = []; // those that are done, and have found no answer
  const begun = []; // those that are not, and are not in the form

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

  // -- a photo's row --

  const rowOf = (photo) => {
    const row = pattern.content.firstElementChild.cloneNode(true);
    row.querySelector("input[type=text]").value = photo.caption || "";
    row.querySelector("select").value = photo.role || "";
    bind(row, photo);
    if (!photo.sha256) preview(row, photo);
    return row;
  };
  const bind = (row, photo) => {
    row.photo = photo;
    photo.row = row;
    if (photo.sha256) arrived(photo);
    else state(photo, photo.state || "waits", photo.say || `${photo.name}: waits`);
  };
  const preview = async (row, photo) => {
    try {
      const picture = await createImageBitmap(photo.file || await fileOf(photo.id), { resizeWidth: 192 });
      if (photo.sha256) return;
      const canvas = document.createElement("canvas");
      canvas.width = picture.width;
      canvas.height = picture.height;
      canvas.getContext("2d").drawImage(picture, 0, 0);
      row.querySelector(".photo-thumb").replaceChildren(canvas);
    } catch { /* a sort that this browser does not show: the server will */ }
  };
  const arrived = (photo) => {
    const { row, sha256 } = photo;
    state(photo, "came", "");
    row.dataset.sha256 = sha256;
    const named = row.querySelector("input[name=photo]");
    named.value = sha256;
    named.disabled = false;
    row.querySelector("input[type=text]").name = `caption.${sha256}`;
    row.querySelector("select").name = `role.${sha256}`;
    if (row.querySelector("img")) return;
    const image = document.createElement("img");
    image.alt = photo.name || "Photo";
    image.src = `/photos/${sha256}/small`;
    row.querySelector(".photo-thumb").replaceChildren(image);
  };
  const state = (photo, is, say) => {
    photo.state = is;
    photo.say = say;
    if (!photo.row) return;
    const told = photo.row.querySelector(".photo-state");
    told.classList.toggle("problem", is === "failed" || is === "refused");
    told.textContent = say;
    photo.row.querySelector(".photo-again").hidden = is !== "failed" && is !== "refused";
  };
  const progress = (photo, part) => {
    const told = photo.row?.querySelector(".photo-state");
    if (!told) return;
    let bar = told.querySelector("progress");
    if (!bar) {
      bar = document.createElement("progress");
      bar.max = 1;
      bar.setAttribute("aria-label", `${photo.name}, sent`);
      told.append(bar);
    }
    bar.value = part;
  };
  const inOrder = () => rowsOf().forEach((row, i, all) => {
    row.querySelector("[value^='up.']").disabled = i === 0;
    row.querySelector("[value^='down.']").disabled = i === all.length - 1;
  });

  // -- photos go, a few at a time; one that breaks off is tried again --

  let running = 0;
  let submitting = false; // the change of an entry goes once its photos have come
  const entries = () => [current, ...waiting];
  const pump = () => {
    for (const e of entries()) {
      for (const photo of e.photos) {
        if (running < atOnce && photo.state === "waits") send(e, photo);
      }
    }
  };
  const send = async (e, photo) => {
    running++;
    state(photo, "goes", `${photo.name}: is sent`);
    const done = (is, say) => {
      clearTimeout(photo.watch);
      running--;
      photo.xhr = null;
      if (photo.state === "gone") dropFile(photo.id);
      else if (is !== "came") state(photo, is, say);
      if (is !== "waits") return pump();
      later();
      if (e.done) deliver(e);
    };
    const file = photo.file || await fileOf(photo.id);
    if (photo.state === "gone") return done("gone");
    if (!file) return done("refused", `${photo.name}: this browser has not kept it; choose it again.`);
    const xhr = photo.xhr = new XMLHttpRequest();
    const watch = () => {
      clearTimeout(photo.watch);
      photo.watch = setTimeout(() => xhr.abort(), stalled);
    };
    xhr.open("POST", `${log}/${e.key}/photos`);
    xhr.setRequestHeader("Accept", "application/json");
    xhr.setRequestHeader("Content-Type", "application/octet-stream");
    xhr.upload.onprogress = (event) => {
      watch();
      if (event.lengthComputable) progress(photo, event.loaded / event.total);
    };
    xhr.upload.onload = () => {
      clearTimeout(photo.watch); // it is being looked at now, which takes its time
    };
    xhr.onabort = xhr.onerror = () => done("waits", `${photo.name}: no answer; it is sent again by itself.`);
    xhr.onload = () => {
      const reply = answer(xhr);
      if (xhr.status === 200 && reply.sha256) {
        came(e, photo, reply.sha256);
        done("came");
      } else if (isLater(xhr.status)) {
        done("waits", `${photo.name}: ${reply.say || "no answer"} It is sent again by itself.`);
      } else done("refused", `${photo.name}: ${reply.say || "it was not taken."}`);
    };
    watch();
    xhr.send(file);
  };
  // 200, and not what we ask for: a hotspot's page, or another program at this address has answered.
  // Not signed in, too slow, too many at once, or a fault: the same may be taken another time.
  const isLater = (status) => status >= 500 || [200, 401, 408, 429].includes(status);
  const answer = (xhr) => {
    try { return JSON.parse(xhr.responseText); } catch { return {}; }
  };
  const came = (e, photo, sha256) => {
    dropFile(photo.id);
    if (photo.state === "gone") return takeBack(e, sha256);
    if (e.photos.some((other) => other !== photo && other.sha256 === sha256)) { // chosen twice
      photo.row?.remove();
      e.photos = e.photos.filter((other) => other !== photo);
      if (e === current) inOrder();
    } else {
      photo.sha256 = sha256;
      photo.file = null;
      if (photo.row) arrived(photo);
      photo.state = "came";
    }
    keep(e);
    if (e.done) deliver(e);
    if (submitting && e.photos.every((other) => other.sha256)) form.submit();
  };
  const takeBack = (e, sha256) =>
    fetch(`${log}/${e.key}/photos/${sha256}/remove`, { method: "POST", headers: { Accept: "application/json" } }).catch(() => {});

  let pause = 1000;
  let timer = 0;
  const again = () => {
    clearTimeout(timer);
    timer = 0;
    pump();
    waiting.forEach(deliver);
  };
  const later = () => {
    if (timer) return;
    timer = setTimeout(again, pause);
    pause = Math.min(pause * 2, 30_000);
  };
  addEventListener("online", again);
  document.addEventListener("visibilitychange", () => { if (!document.hidden) again(); });

  // -- an entry is delivered --

  const bodyOf = (e) => {
    const body = new FormData();
    body.set("key", e.key);
    body.set("revision", "0");
    for (const name of fieldNames) body.set(name, e.fields[name]);
    for (const { sha256, caption, role } of e.photos) {
      body.append("photo", sha256);
      body.set(`caption.${sha256}`, caption || "");
      body.set(`role.${sha256}`, role || "");
    }
    return body;
  };
  const deliver = async (e) => {
    const left = e.photos.filter((photo) => !photo.sha256);
    const stuck = left.find((photo) => photo.state === "refused");
    if (stuck) return hold(e, "A photo was not taken. Take it away, or try it again; the entry is saved then.");
    if (left.length) {
      if (e === current) tell(`Saved as soon as ${left.length === 1 ? "the photo has" : `${left.length} photos have`} arrived.`);
      return left.some((photo) => photo.state === "waits") && timer ? wait(e) : pump();
    }
    if (e.going) return;
    e.going = true;
    let reply, said;
    try {
      reply = await fetch(log, { method: "POST", body: bodyOf(e), headers: { Accept: "application/json" }, signal: AbortSignal.timeout(stalled) });
      said = await reply.json();
    } catch { /* no answer: perhaps it came, perhaps not */ }
    e.going = false;
    if (reply?.status === 200 && said?.key === e.key) return delivered(e);
    if (!said || isLater(reply.status)) {
      wait(e, said?.say);
      return later();
    }
    if (e === current) {
      e.done = false;
      keep(e);
      form.submit(); // the page says what is wrong, at its field
    } else hold(e, said.say || "Something in it was not taken: put it back into the form, and save it there.");
  };
  const delivered = (e) => {
    forget(e);
    pause = 1000;
    if (e === current) {
      const place = e.fields.in ? `${log.slice(0, -"/log".length)}/upgrades/${encodeURIComponent(e.fields.in)}/log` : log;
      return location.assign(`${place}?saved=${e.key}`);
    }
    waiting = waiting.filter((other) => other !== e);
    showOutbox();
    if (!waiting.length && isBlank(current)) location.assign(`${log}?saved=${e.key}`);
  };
  const hold = (e, say) => {
    e.say = say;
    if (e !== current) return showOutbox();
    e.done = false;
    keep(e);
    tell(say);
  };
  // An entry that has to wait makes room for another in the form.
  const wait = (e, say) => {
    e.say = say;
    if (e === current) {
      waiting.push(e);
      blankForm();
      e.photos.forEach((photo) => { photo.row = null; });
    }
    showOutbox();
    later();
  };

  const line = (e, say, ...buttons) => {
    const item = document.createElement("li");
    const told = document.createElement("p");
    const word = document.createElement("b");
    word.textContent = e.done ? "Not sent yet. " : "Begun. ";
    const count = e.photos.length === 1 ? "1 photo" : `${e.photos.length} photos`;
    told.append(word, [e.fields.text.split("\n")[0].slice(0, 80), e.photos.length ? count : ""].filter(Boolean).join(", "));
    const why = document.createElement("p");
    why.textContent = say;
    const actions = document.createElement("div");
    actions.className = "actions";
    for (const [text, act] of buttons) {
      const button = document.createElement("button");
      button.type = "button";
      button.className = "button-small";
      button.textContent = text;
      button.addEventListener("click", act);
      actions.append(button);
    }
    item.append(told, why, actions);
    return item;
  };
  const showOutbox = () => {
    if (!outbox) return;
    const toForm = (e, from) => ["Into the form", () => {
      readForm();
      if (!isBlank(current)) return tell("The form is not empty: save what is in it first.");
      from.splice(from.indexOf(e), 1);
      e.done = false;
      fillForm(e);
      keep(e);
      showOutbox();
      return form.elements.text.focus();
    }];
    const lines = [
      ...waiting.map((e) => line(e, e.say || "Fettle does not answer. It is kept in this browser, and sent by itself as soon as there is an answer.",
        ["Send now", again], toForm(e, waiting))),
      ...begun.map((e) => line(e, "It was begun elsewhere in this log, and is kept in this browser.", toForm(e, begun),
        ["Throw away", () => { forget(e); begun.splice(begun.indexOf(e), 1); showOutbox(); }])),
    ];
    const all = document.createElement("ul");
    all.append(...lines);
    outbox.replaceChildren(...(lines.length ? [all] : []));
  };

  // -- what a hand does --

  const changed = (event) => {
    if (event.target.type === "file") return;
    readForm();
    if (!current.begun && isNew && event.target.name !== "at") form.elements.at.value = current.fields.at = now();
    current.begun = true;
    keep(current);
  };
  form.addEventListener("input", changed);
  form.addEventListener("change", changed);

  form.elements.files.addEventListener("change", async (event) => {
    const chosen = [...event.target.files];
    event.target.value = "";
    readForm();
    for (const file of chosen) {
      const photo = { id: newKey(), name: file.name, file, caption: "", role: "" };
      list.append(rowOf(photo));
      current.photos.push(photo);
      if (file.size > mostBytes) state(photo, "refused", `${file.name}: it is larger than ${mostBytes / 2 ** 20} MB; send a smaller one.`);
      else if (current.photos.length > mostPhotos) state(photo, "refused", `${file.name}: an entry has at most ${mostPhotos} photos.`);
      else if (isNew) keepFile(photo.id, file);
    }
    if (!current.begun && isNew) form.elements.at.value = current.fields.at = now();
    current.begun = true;
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
    if (photo.sha256) takeBack(current, photo.sha256);
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
    keep(current);
    deliver(current);
  });

  // -- what is there when the page opens --

  form.classList.add("entry-live");
  for (const row of rowsOf()) bind(row, { id: "", sha256: row.dataset.sha256, name: "" });
  readForm();
  const saved = new URLSearchParams(location.search).get("saved");
  for (const e of kept()) {
    e.photos.forEach((photo) => { photo.state = photo.sha256 ? "came" : "waits"; });
    if (e.key === saved || !isNew && e.key === current.key) forget(e);
    else if (!isNew) continue;
    else if (e.key === current.key) { // the server has what was typed, and the browser what has not come
      for (const photo of e.photos.filter(({ sha256 }) => !sha256)) list.append(rowOf(photo));
      readForm();
      inOrder();
    } else if (e.done) waiting.push(e);
    else if (isBlank(current) && !("typed" in form.dataset) && e.fields.in === current.fields.in && !location.search.includes("about=")) {
      e.begun = true;
      fillForm(e);
    } else begun.push(e);
  }
  showOutbox();
  again();
})();

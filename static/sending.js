// A photo, or an entry, goes to the server and its answer is read. The server keeps an entry once, by its key,
// however often it is sent.

const stalled = 60_000; // ms without progress: the network is gone, and has not said so
const lookedAt = 300_000; // ms until a photo that has arrived is kept, behind others

// 200, and not what we ask for: a hotspot's page, or another program at this address has answered.
// Not signed in, too slow, too many at once, or a fault: the same may be taken another time.
const isLater = (status) => status >= 500 || [200, 401, 408, 429].includes(status);

// sendPhoto gives what became of it: it "came", with its sha256; it "waits" to be sent again; or it was
// "refused". The request can be aborted as soon as started has it.
export const sendPhoto = (log, key, file, { started = () => {}, progress = () => {} } = {}) => new Promise((resolve) => {
  const xhr = new XMLHttpRequest();
  let watch = 0;
  const done = (reply) => {
    clearTimeout(watch);
    resolve(reply);
  };
  const keepWatch = (time = stalled) => {
    clearTimeout(watch);
    watch = setTimeout(() => xhr.abort(), time);
  };
  xhr.open("POST", `${log}/${key}/photos`);
  xhr.setRequestHeader("Accept", "application/json");
  xhr.setRequestHeader("Content-Type", "application/octet-stream");
  xhr.upload.onprogress = (event) => {
    keepWatch();
    if (event.lengthComputable) progress(event.loaded / event.total);
  };
  xhr.upload.onload = () => keepWatch(lookedAt);
  xhr.onabort = xhr.onerror = () => done({ is: "waits" });
  xhr.onload = () => {
    const { sha256, say } = answer(xhr.responseText);
    const is = xhr.status === 200 && sha256 ? "came" : !say || isLater(xhr.status) ? "waits" : "refused";
    done({ is, sha256, say, status: xhr.status });
  };
  keepWatch();
  started(xhr);
  xhr.send(file);
});

const answer = (text) => {
  try { return JSON.parse(text) ?? {}; } catch { return {}; }
};

export const fieldNames = ["text", "at", "about", "hours", "cost", "currency", "in"];

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

// sendEntry gives what became of it: it "came"; it "waits" to be sent again; or it was "refused".
export const sendEntry = async (log, e) => {
  let reply, said;
  try {
    reply = await fetch(log, { method: "POST", body: bodyOf(e), headers: { Accept: "application/json" }, signal: AbortSignal.timeout(stalled) });
    said = await reply.json();
  } catch { /* no answer: perhaps it came, perhaps not */ }
  const status = reply?.status;
  if (status === 200 && said?.key === e.key) return { is: "came", status };
  return { is: !said || isLater(status) ? "waits" : "refused", say: said?.say, status };
};

export const takeBack = (log, key, sha256) =>
  fetch(`${log}/${key}/photos/${sha256}/remove`, { method: "POST", headers: { Accept: "application/json" } }).catch(() => {});

// Fettle's own behaviour. Every page does its job without it.
(() => {
  "use strict";

  // A slider <input type=range data-moves="ID"> shifts the group with that id along the drawing by
  // (value - data-base) * data-scale, and says the value in the elements that data-shows names. What is
  // true at data-base alone, the group data-marks, is put away elsewhere.
  const place = (slider) => {
    const { moves, marks, base = "0", scale = "1", shows, unit = "" } = slider.dataset;
    const group = document.getElementById(moves);
    const value = Number(slider.value);
    if (group) {
      const shift = (value - Number(base)) * Number(scale);
      group.setAttribute("transform", `translate(${shift.toFixed(3)} 0)`);
    }
    if (marks) document.getElementById(marks)?.classList.toggle("away", value !== Number(base));
    const digits = (slider.step.split(".")[1] || "").length;
    const said = String(Number(value.toFixed(digits))).replace("-", "\u2212");
    slider.setAttribute("aria-valuetext", `${said} ${unit}`.trim());
    const shown = shows && document.getElementById(shows);
    if (shown) shown.textContent = said;
  };
  const placeAll = () => document.querySelectorAll("input[data-moves]").forEach(place);

  const say = (sentence) => {
    const notices = document.getElementById("notices");
    if (!notices) return;
    const message = document.createElement("div");
    message.className = "message message-problem";
    const word = document.createElement("b");
    word.textContent = "Not saved.";
    message.append(word, sentence);
    notices.replaceChildren(message);
  };

  document.addEventListener("input", (event) => {
    if (event.target.matches("input[data-moves]")) place(event.target);
  });

  // A tick data-shows-typed=ID shows what is typed into the passphrase field with that id.
  document.addEventListener("change", (event) => {
    const field = document.getElementById(event.target.dataset.showsTyped);
    if (field) field.type = event.target.checked ? "text" : "password";
  });

  // A new picture from the server is drawn at its base: put the slide back where the slider says.
  document.addEventListener("htmx:after:swap", placeAll);

  // A list that the server chose from, a remedy for one, shows what it chose: the browser alone would
  // keep what a hand chose before.
  const choose = () => document.querySelectorAll("select").forEach((list) => {
    const chosen = list.querySelector("option[selected]");
    if (chosen && list !== document.activeElement) list.value = chosen.value;
  });
  document.addEventListener("htmx:after:swap", choose);

  // A figure that is opened is explained by the server; while it is open, the form says so, and the
  // next reply explains it anew. A reply that was on its way when it was opened or closed does not know.
  const explain = (line) => {
    const told = line.querySelector(":scope > input[name=open]");
    if (!told) return;
    told.disabled = !line.open;
    const link = line.querySelector(":scope > .why > a.how");
    if (line.open && link) htmx.ajax("GET", link.href, { source: link, target: link.parentElement, swap: "innerHTML" });
  };
  document.addEventListener("toggle", (event) => explain(event.target), true);
  document.addEventListener("htmx:after:swap", () => document.querySelectorAll("details").forEach(explain));

  // Requests of one form are counted, so that the server knows the latest whatever way they came.
  let turn = Date.now();
  document.addEventListener("htmx:config:request", (event) => {
    const body = event.detail.ctx.request.body;
    if (body?.has?.("turn")) body.set("turn", ++turn);
  });

  // A reply that came through takes away what was said about the last one that did not.
  document.addEventListener("htmx:after:request", (event) => {
    if (event.detail.ctx?.response?.raw?.ok) document.getElementById("notices")?.replaceChildren();
  });

  // No reply at all (the program was stopped, the network is gone): what was typed is still on the page.
  document.addEventListener("htmx:error", (event) => {
    if (event.detail.ctx) say("Fettle does not answer. What you typed is still here; it is sent again with your next change.");
  });

  // The picture of a page that is opened again by the Back key is placed too.
  addEventListener("pageshow", placeAll);
})();

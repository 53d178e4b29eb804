// Fettle's own behaviour. Every page does its job without it.
(() => {
  "use strict";

  // A slider <input type=range data-moves="ID"> shifts the group with that id along the drawing by
  // (value - data-base) * data-scale, and says the value in the elements that data-shows names.
  const place = (slider) => {
    const { moves, base = "0", scale = "1", shows, unit = "" } = slider.dataset;
    const group = document.getElementById(moves);
    const value = Number(slider.value);
    if (group) {
      const shift = (value - Number(base)) * Number(scale);
      group.setAttribute("transform", `translate(${shift.toFixed(3)} 0)`);
    }
    const digits = (slider.step.split(".")[1] || "").length;
    const said = value.toFixed(digits).replace("-", "\u2212");
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

  // A new picture from the server is drawn at its base: put the slide back where the slider says.
  document.addEventListener("htmx:after:swap", placeAll);

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

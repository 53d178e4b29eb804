// How an entry is told that waits in this browser, and what can be done about it.

export const countOf = (n, one, many) => n === 1 ? `1 ${one}` : `${n} ${many}`;

export const linkTo = (text, href) => {
  const link = document.createElement("a");
  link.className = "button button-small";
  link.href = href;
  link.textContent = text;
  return link;
};
export const buttonFor = (text, act) => {
  const button = document.createElement("button");
  button.type = "button";
  button.className = "button-small";
  button.textContent = text;
  button.addEventListener("click", act);
  return button;
};

// The way in, and back to this page.
const signIn = () => linkTo("Sign in", `/signin?then=${encodeURIComponent(location.pathname + location.search)}`);

export const textOf = (e) =>
  [e.fields.text.split("\n")[0].slice(0, 80), e.photos.length ? countOf(e.photos.length, "photo", "photos") : ""].filter(Boolean).join(", ");

// lineOf is one entry, or what is said of several.
export const lineOf = (word, text, say, actions) => {
  const item = document.createElement("li");
  const told = document.createElement("p");
  const first = document.createElement("b");
  first.textContent = `${word} `;
  told.append(first, text);
  const why = document.createElement("p");
  why.textContent = say;
  const can = document.createElement("div");
  can.className = "actions";
  can.append(...actions);
  item.append(told, why, can);
  return item;
};

// waitingLine is an entry that is sent again by itself, with the last answer to it.
export const waitingLine = (e, { status, say } = {}, ...actions) => status === 401
  ? lineOf("Not sent yet.", textOf(e), "This device is not signed in, or no longer. The entry is kept in this browser, and sent once you have signed in.", [signIn(), ...actions])
  : lineOf("Not sent yet.", textOf(e), say || "Fettle does not answer. It is kept in this browser, and sent by itself as soon as there is an answer.", actions);

export const showLines = (element, lines) => {
  const all = document.createElement("ul");
  all.append(...lines);
  if (lines.length && element.firstElementChild?.isEqualNode(all)) return; // nothing is said twice, and no button goes from under a hand
  element.replaceChildren(...(lines.length ? [all] : []));
};

// The rows of the photos in the form of an entry. A photo is what the browser keeps of it, with its row and its
// state: it waits, goes, came, was refused, or is gone.
import { fileOf } from "./kept.js";

export const list = document.getElementById("photo-list");
const pattern = document.getElementById("photo-row");

export const rowsOf = () => [...list.querySelectorAll(":scope > .photo-row")];

export const rowOf = (photo) => {
  const row = pattern.content.firstElementChild.cloneNode(true);
  row.classList.add("photo-new");
  row.querySelector("input[type=text]").value = photo.caption || "";
  row.querySelector("select").value = photo.role || "";
  bind(row, photo);
  if (!photo.sha256) preview(row, photo);
  return row;
};
export const bind = (row, photo) => {
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
export const arrived = (photo) => {
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
export const state = (photo, is, say) => {
  photo.state = is;
  photo.say = say;
  if (!photo.row) return;
  const told = photo.row.querySelector(".photo-state");
  told.classList.toggle("problem", is === "refused");
  told.textContent = say;
  photo.row.querySelector(".photo-again").hidden = is !== "refused";
};
export const progress = (photo, part) => {
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
export const inOrder = () => rowsOf().forEach((row, i, all) => {
  row.querySelector("[value^='up.']").disabled = i === 0;
  row.querySelector("[value^='down.']").disabled = i === all.length - 1;
});

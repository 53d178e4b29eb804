// Before and after: a slider moves the edge between two photos.
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

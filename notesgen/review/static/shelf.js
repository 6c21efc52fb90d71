// The shelf: the lessons of the folder, and a place to drop captions on.

import { byId, counted, el } from "./dom.js";
import { Problem, add, shelf } from "./server.js";

const page = (name) => `/lesson/${encodeURIComponent(name)}`;

async function show() {
  const { folder, lessons } = await shelf();
  byId("folder").textContent = folder;
  byId("lessons").replaceChildren(...lessons.map(entry));
}

function entry(lesson) {
  return el(
    "li",
    {},
    el("a", { href: page(lesson.name), dir: "auto" }, lesson.title),
    el("span", { class: "left" }, lesson.name),
    el("span", { class: lesson.queries ? "open" : "left" }, state(lesson.queries)),
  );
}

function state(queries) {
  if (queries === null) return "not begun";
  return queries ? `${counted(queries, "query", "queries")} left` : "all settled";
}

async function take(file) {
  if (!file) return;
  say(`Reading ${file.name}.`);
  try {
    const { name } = await add(file);
    location.assign(page(name));
  } catch (problem) {
    if (!(problem instanceof Problem)) throw problem;
    say(problem.message, true);
  }
}

function say(message, problem = false) {
  byId("told").textContent = message;
  byId("told").classList.toggle("problem", problem);
}

// The whole page takes what is dropped: a file that misses the mark would otherwise replace the page.
document.addEventListener("dragover", (drag) => {
  drag.preventDefault();
  byId("drop").classList.add("over");
});
document.addEventListener("dragleave", (drag) => drag.relatedTarget || byId("drop").classList.remove("over"));
document.addEventListener("drop", (drop) => {
  drop.preventDefault();
  byId("drop").classList.remove("over");
  take(drop.dataTransfer.files[0]);
});
byId("captions").addEventListener("change", () => take(byId("captions").files[0]));

show()
  .then(() => (document.documentElement.dataset.ready = "true"))
  .catch((problem) => say(problem.message, true));

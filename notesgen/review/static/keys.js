// The keys. One table says what each does, and the help sheet is made from it.

import { byId, el } from "./dom.js";

// `table`: [{where: "query" | "note" | "anywhere", keys: [...], shown: "…", does: "…", run(key)}]. `where()` tells
// in which part the keys are. A key is named as the browser names it, with "Shift+" or "Ctrl+" before it.
export function listen(table, where) {
  document.addEventListener("keydown", (press) => {
    if (press.defaultPrevented || byId("help").open || typing(press)) return;
    if (press.altKey && !isThird(press)) return;
    const name = named(press);
    const entry = table.find((one) => [where(), "anywhere"].includes(one.where) && one.keys.includes(name));
    if (!entry || entry.run(name) === false) return;
    press.preventDefault();
  });
}

export function helpSheet(table) {
  const part = (where, title) =>
    el(
      "section",
      {},
      el("h3", {}, title),
      el(
        "dl",
        {},
        table
          .filter((entry) => entry.where === where)
          .map((entry) => el("div", {}, el("dt", {}, el("kbd", {}, entry.shown)), el("dd", {}, entry.does))),
      ),
    );
  return [part("query", "On a query"), part("note", "On a note"), part("anywhere", "Anywhere")];
}

// On many keyboards "[" is reached by a key for third signs, which some systems report as Ctrl and Alt.
const isThird = (press) => press.getModifierState("AltGraph");

function named(press) {
  const control = (press.ctrlKey || press.metaKey) && !isThird(press) ? "Ctrl+" : "";
  const shift = press.shiftKey && (press.key.length > 1 || control) ? "Shift+" : "";
  const key = press.key.length === 1 ? press.key.toLowerCase() : press.key;
  return `${control}${shift}${key}`;
}

// Keys belong to a field while one is written in, and to a button for Space and Enter.
function typing(press) {
  const at = press.target;
  if (at.closest("input, select, textarea, video, audio")) return press.key !== "Escape" && !press.ctrlKey;
  return at.closest("button, a") !== null && (press.key === "Enter" || press.key === " ");
}

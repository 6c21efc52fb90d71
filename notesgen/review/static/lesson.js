// Starts the page of one lesson: its parts, its keys, its buttons.

import { byId } from "./dom.js";
import { helpSheet, listen } from "./keys.js";
import { keyTable } from "./keytable.js";
import { Proofing } from "./proofing.js";

const name = decodeURIComponent(location.pathname.split("/").pop());
const page = new Proofing(name);
const table = keyTable(page);

listen(table, () => (page.sheet.chosen ? "note" : "query"));
byId("keys").replaceChildren(...helpSheet(table));
byId("undo").addEventListener("click", () => page.send(() => ({ act: "undo" })));
byId("redo").addEventListener("click", () => page.send(() => ({ act: "redo" })));
byId("ask-help").addEventListener("click", () => byId("help").showModal());
byId("pack").addEventListener("click", () => page.makePack());
byId("sheet").addEventListener("focus", () => page.sheet.chosen || page.enterTab());
byId("media").addEventListener("change", () => page.openRecording(byId("media").files[0]));
// A recording may fall anywhere on the page; without this the browser would leave the page for it.
for (const kind of ["dragover", "drop"]) document.addEventListener(kind, (drag) => drag.preventDefault());
document.addEventListener("drop", (drop) => page.openRecording(drop.dataTransfer.files[0]));
addEventListener("resize", redrawnAtRest());

page
  .start()
  .then(() => (document.documentElement.dataset.ready = "true"))
  .catch(page.trouble);

// Draws the tab anew once the window has come to rest, where its width has changed.
function redrawnAtRest() {
  let waiting = 0;
  let drawn = page.width;
  return () => {
    clearTimeout(waiting);
    waiting = setTimeout(() => {
      if (page.width !== drawn) page.refresh(-1).catch(page.trouble);
      drawn = page.width;
    }, 200);
  };
}

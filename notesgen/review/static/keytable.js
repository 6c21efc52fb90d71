// What each key does. The help sheet is made from this table too, so that it cannot say anything else.

import { byId } from "./dom.js";
import * as edits from "./edits.js";
import { LETTERS } from "./slip.js";

const TECHNIQUES = { o: "pick", h: "hammer-on", p: "pull-off", s: "slide", r: "release", t: "tap" };

const row = (where, keys, shown, does, run) => ({ where, keys, shown, does, run });

// `page` is the Proofing that the keys play on.
export const keyTable = (page) => [...onQuery(page), ...onNote(page), ...anywhere(page)];

function onQuery(page) {
  const { slip } = page;
  const choose = (key) => {
    const at = LETTERS.includes(key) ? LETTERS.indexOf(key) : Number(key) - 1;
    return at < slip.count ? void page.answer(at) : false;
  };
  return [
    row("query", [...LETTERS, ..."123456789"], "a b c …", "choose that answer (1 2 3 … do the same)", choose),
    row("query", ["ArrowDown", "ArrowUp"], "↓ ↑", "go from answer to answer; Enter chooses", (key) =>
      slip.step(key === "ArrowDown" ? 1 : -1),
    ),
    row("query", ["ArrowRight", "ArrowLeft"], "→ ←", "next query, previous query", (key) =>
      page.askBeside(key === "ArrowRight" ? 1 : -1),
    ),
    row("query", ["s"], "s", "sound the answer", () => page.soundAnswer(slip.marked)),
    row("query", ["p"], "p", "play the recording from two seconds before, or stop it", () =>
      page.recording.toggle(slip.query?.start ?? 0),
    ),
    row("query", ["n"], "n", "go to the note in the tab", () => page.enterTab()),
  ];
}

function onNote(page) {
  const { sheet, card } = page;
  return [
    row("note", ["ArrowLeft", "ArrowRight"], "← →", "note before, next note", (key) =>
      sheet.step(key === "ArrowRight" ? 1 : -1),
    ),
    row("note", ["Shift+ArrowLeft", "Shift+ArrowRight"], "Shift ← →", "choose a passage", (key) =>
      sheet.step(key.endsWith("Right") ? 1 : -1, true),
    ),
    row("note", ["c"], "c", "next of the notes struck together", () => sheet.nextString()),
    row("note", [..."0123456789"], "0 … 9", "write a fret; two figures in a row make 10 and up", (key) =>
      void page.typeFigure(key),
    ),
    row("note", ["x"], "x", "a dead note", () => void page.edit((event, string) => edits.fret(event, string, "x"))),
    row("note", ["ArrowUp", "ArrowDown"], "↑ ↓", "to the next string, at the same fret", (key) =>
      void page.move(key === "ArrowUp" ? -1 : 1, false),
    ),
    row("note", ["Shift+ArrowUp", "Shift+ArrowDown"], "Shift ↑ ↓", "to the next string, at the same pitch", (key) =>
      void page.move(key === "Shift+ArrowUp" ? -1 : 1, true),
    ),
    row(
      "note",
      Object.keys(TECHNIQUES),
      "o h p s r t",
      "picked, hammer-on, pull-off, slide, release, tapped",
      (key) => void page.edit((event, string) => edits.how(event, string, TECHNIQUES[key])),
    ),
    row("note", ["b"], "b", "a bend; again for another amount", () => void page.edit(edits.bendOn)),
    row("note", ["v"], "v", "vibrato, or none", () => void page.edit((event) => edits.mark(event, "vibrato"))),
    row("note", ["i", "a"], "i a", "a new note before, after", (key) =>
      void card.does.insert(key === "i" ? "before" : "after"),
    ),
    row("note", ["Delete", "Backspace"], "Delete", "take the note or the passage out", () => void card.does.remove()),
    row("note", ["m"], "m", "the passage is only told over: take it out", () => void card.does.recap()),
    row("note", ["[", "]"], "[ ]", "begin a phrase here; join the phrase with the one before", (key) =>
      void (key === "[" ? card.does.split() : card.does.join()),
    ),
    row("note", ["e"], "e", "rename the phrase; Enter keeps the name", () => card.title.select()),
    row("note", ["l"], "l", "listen to the phrase, or stop it", () => void card.does.sound()),
    row("note", [" "], "Space", "play the recording from two seconds before, or stop it", () => card.does.play()),
    row("note", ["Escape"], "Esc", "back to the queries", () => page.leaveTab()),
  ];
}

function anywhere(page) {
  return [
    row("anywhere", ["Ctrl+z"], "Ctrl Z", "undo, as far back as you like", () => void page.send(() => ({ act: "undo" }))),
    row("anywhere", ["Ctrl+y", "Ctrl+Shift+Z", "Ctrl+Shift+z"], "Ctrl Y", "redo", () =>
      void page.send(() => ({ act: "redo" })),
    ),
    row("anywhere", ["?"], "?", "this sheet", () => byId("help").showModal()),
  ];
}

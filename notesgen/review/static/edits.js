// What becomes of a note under the teacher's hand: from a note and a wish to the act that the server is sent.
// Nothing here changes anything.

export const HIGHEST = 36; // no neck has more frets
export const BENDS = [2, 1, 0.5, 3, 4, 1.5]; // semitones, the commonest first
const BENT = ["bend", "pre-bend"];

const write = (event, fields) => ({ act: "write", event: event.id, ...fields });
const noteOn = (event, string) => event.notes.find((note) => note.string === string) ?? event.notes[0];
const changed = (event, note, fields) =>
  event.notes.map((one) => (one === note ? { ...one, ...fields } : one));

export const fret = (event, string, value) =>
  write(event, { notes: changed(event, noteOn(event, string), { fret: value }) });

// To another string. `open` holds the open strings as MIDI numbers, string 1 first; with `samePitch` the fret
// follows so that the note sounds as before. null where the note cannot go there.
export function string(event, from, to, open, samePitch = false) {
  const note = noteOn(event, from);
  if (to < 1 || to > open.length || event.notes.some((one) => one.string === to)) return null;
  const moved = samePitch && note.fret !== "x" ? note.fret + open[note.string - 1] - open[to - 1] : note.fret;
  if (moved !== "x" && (moved < 0 || moved > HIGHEST)) return null;
  return write(event, { notes: changed(event, note, { string: to, fret: moved }) });
}

// How the note begins. Where notes struck together begin differently, only the chosen one changes.
export function how(event, string, value, bend = null) {
  const note = noteOn(event, string);
  const amount = BENT.includes(value) ? (bend ?? bendOf(event, string) ?? BENDS[0]) : 0;
  if (!event.notes.some((one) => one.how)) return write(event, { how: value, bend: amount });
  return write(event, { notes: changed(event, note, { how: value, bend: amount || null, to: null }) });
}

// The next amount, each time that "bend" is asked for again.
export function bendOn(event, string) {
  const next = BENDS[(BENDS.indexOf(bendOf(event, string)) + 1) % BENDS.length];
  return howOf(event, string) === "bend" ? how(event, string, "bend", next) : how(event, string, "bend");
}

export const trillTo = (event, value) => write(event, { how: "trill", to: value });

export const mark = (event, name) =>
  write(event, {
    marks: event.marks.includes(name) ? event.marks.filter((one) => one !== name) : [...event.marks, name],
  });

export const howOf = (event, string) => noteOn(event, string).how ?? event.how;
export const bendOf = (event, string) => noteOn(event, string).bend ?? event.bend;
export const fretOf = (event, string) => noteOn(event, string).fret;

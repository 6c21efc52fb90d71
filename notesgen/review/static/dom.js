// Elements made from data. Words only ever become text: nothing here reads markup, but for our own drawings.

export function el(name, attributes = {}, ...children) {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) {
    if (key.startsWith("on")) made.addEventListener(key.slice(2), value);
    else if (value === true) made.setAttribute(key, "");
    else if (value !== false && value != null) made.setAttribute(key, value);
  }
  made.append(...children.flat().filter((child) => child != null));
  return made;
}

export const byId = (id) => document.getElementById(id);

// A drawing that the server made, read as XML, so that nothing in it can be taken for a page.
export function drawing(svg, { hidden = false } = {}) {
  const read = new DOMParser().parseFromString(svg, "image/svg+xml").documentElement;
  if (read.nodeName !== "svg") throw new Error("This drawing cannot be read.");
  const made = document.importNode(read, true);
  if (hidden) {
    made.setAttribute("aria-hidden", "true");
    made.removeAttribute("role");
  }
  return made;
}

// Seconds as m:ss, or h:mm:ss from an hour on.
export function clock(seconds) {
  const whole = Math.floor(seconds);
  const [h, m, s] = [Math.floor(whole / 3600), Math.floor(whole / 60) % 60, whole % 60];
  const two = (number) => String(number).padStart(2, "0");
  return h ? `${h}:${two(m)}:${two(s)}` : `${m}:${two(s)}`;
}

// "1 query", "3 queries".
export const counted = (number, one, many = `${one}s`) => `${number} ${number === 1 ? one : many}`;

// The recording: played from a place, followed word by word. Without one, nothing here does anything.

import { el } from "./dom.js";

const LEAD = 2; // seconds heard before the place that is asked about

export class Recording {
  #media = null;

  // `follow(second)` is called as the recording plays.
  constructor(place, follow) {
    this.place = place;
    this.follow = follow;
  }

  get isThere() {
    return this.#media !== null;
  }

  // `source` is {url, name, kind}, kind "video" or "audio".
  open({ url, name, kind }) {
    const media = el(kind, { controls: true, preload: "metadata", src: url, "aria-label": "The recording" });
    media.addEventListener("play", () => this.#run());
    media.addEventListener("seeked", () => this.follow(media.currentTime));
    media.addEventListener("error", () => this.#unplayable(name));
    this.#media = media;
    this.place.replaceChildren(media);
  }

  playFrom(second) {
    if (!this.#media) return;
    this.#media.currentTime = Math.max(0, second - LEAD);
    this.#media.play().catch(() => {}); // a file that cannot play tells so by its own event
  }

  // Stops what plays; else plays from the second.
  toggle(second) {
    if (this.#media && !this.#media.paused) this.#media.pause();
    else this.playFrom(second);
  }

  seek(second) {
    if (this.#media) this.#media.currentTime = second;
  }

  #run() {
    const step = () => {
      if (!this.#media || this.#media.paused) return;
      this.follow(this.#media.currentTime);
      requestAnimationFrame(step);
    };
    step();
  }

  #unplayable(name) {
    this.#media = null;
    const told =
      `This browser cannot play ${name}. Save the recording as MP4 or WebM, or its sound as MP3, ` +
      "and drop it here. All else works without it.";
    this.place.replaceChildren(el("p", { class: "problem", role: "alert", dir: "auto" }, told));
  }
}

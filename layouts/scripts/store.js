// What this device keeps for the course. All pages opened from folders may share
// one store, so keys carry the course; a browser may refuse to keep anything, and
// then nothing is kept and nothing breaks.

import { root } from "./page.js";

const key = (name) => `plait/1/${root.dataset.course}/${name}`;

export function load(name, otherwise) {
  try {
    const text = localStorage.getItem(key(name));
    return text === null ? otherwise : JSON.parse(text);
  } catch {
    return otherwise;
  }
}

// save reports whether the value is kept: in a full or forbidden store it lives as long
// as the page.
export function save(name, value) {
  try {
    localStorage.setItem(key(name), JSON.stringify(value));
    return true;
  } catch {
    return false;
  }
}

// changed calls back when another page of the course saves the value.
export function changed(name, run) {
  addEventListener("storage", (event) => {
    if (event.key === key(name)) run();
  });
}

// Small helpers that several parts of the script share.

export const root = document.documentElement;

// startPage runs a page's parts once its elements are there. Whatever needs a script is
// hidden until the class that it sets is there. It runs on pages opened from a folder:
// no modules, no requests. A page that renews takes new elements while it is open, which
// a preview has for it.
export function startPage(run, renews = false) {
  root.classList.add("live");
  if (renews) root.dataset.renews = "yes";
  document.addEventListener("DOMContentLoaded", run);
}

export const all = (selector, within = document) => [...within.querySelectorAll(selector)];

// copyOf returns a fresh copy of the only child of a template, or null where this
// page has no such template.
export function copyOf(id) {
  const template = document.getElementById(id);
  return template && template.content.firstElementChild.cloneNode(true);
}

// hear listens to the page until another script takes this one's place.
const here = new AbortController();
document.currentScript?.addEventListener("replaced", () => here.abort());
export const hear = (type, run) => document.addEventListener(type, run, { signal: here.signal });

// renewed runs a function when a preview has put new elements on the page.
export const renewed = (run) => hear("renewed", run);

// each prepares every element that a selector names, those that come later too. What is
// marked as ready is not changed in part: it is replaced by another, which is prepared.
export function each(selector, prepare) {
  const look = () => {
    for (const element of all(`${selector}:not([data-ready])`)) {
      prepare(element);
      element.dataset.ready = "yes";
    }
  };
  look();
  renewed(look);
}

// on runs a function for each press on an element that says data-do="name". One
// listener serves what is on the page now and what is added later.
export function on(name, run) {
  hear("click", (event) => {
    const target = event.target.closest(`[data-do="${name}"]`);
    if (target) run(target);
  });
}

// callIn adds the script that an element names, data-NAME="path". What it brings is not
// needed to read the page, so the page does not wait for it.
export function callIn(name) {
  let script, path;
  const call = () => {
    const place = document.querySelector(`[data-${name}]`);
    if (!place || place.dataset[name] === path) return;
    if (script) script.dispatchEvent(new Event("replaced"));
    path = place.dataset[name];
    script = Object.assign(document.createElement("script"), { src: path });
    document.head.append(script);
  };
  call();
  renewed(call);
}

// Small helpers that several parts of the script share.

export const root = document.documentElement;

// startPage runs a page's parts once its elements are there. Whatever needs a script is
// hidden until the class that it sets is there. It runs on pages opened from a folder:
// no modules, no requests.
export function startPage(run) {
  root.classList.add("live");
  document.addEventListener("DOMContentLoaded", run);
}

export const all = (selector, within = document) => [...within.querySelectorAll(selector)];

// copyOf returns a fresh copy of the only child of a template, or null where this
// page has no such template.
export function copyOf(id) {
  const template = document.getElementById(id);
  return template && template.content.firstElementChild.cloneNode(true);
}

// on runs a function for each press on an element that says data-do="name". One
// listener serves what is on the page now and what is added later.
export function on(name, run) {
  document.addEventListener("click", (event) => {
    const target = event.target.closest(`[data-do="${name}"]`);
    if (target) run(target);
  });
}

// callIn adds the script that an element names, data-NAME="path". What it brings is not
// needed to read the page, so the page does not wait for it.
export function callIn(name) {
  const place = document.querySelector(`[data-${name}]`);
  if (place) document.head.append(Object.assign(document.createElement("script"), { src: place.dataset[name] }));
}

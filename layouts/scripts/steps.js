// Step view: one step at a time in large letters, by buttons, keys and swipes.

import { all, hear, on, renewed, root } from "./page.js";

const FAR = 60; // pixels a finger has to travel for a swipe

let steps = [];
let at = 0;
let touch;
let lock;

const open = () => root.classList.contains("stepping");

// mark chooses the step that is seen and says which it is.
function mark(i) {
  at = Math.min(Math.max(i, 0), steps.length - 1);
  steps.forEach((s, k) => s.classList.toggle("shown", k === at));
  const bar = document.querySelector(".stepbar");
  bar.querySelector("p").textContent = `Step ${at + 1} of ${steps.length}`;
  bar.querySelector("[data-do=back]").disabled = at === 0;
  bar.querySelector("[data-do=on]").disabled = at === steps.length - 1;
}

function show(i) {
  mark(i);
  const heading = steps[at].querySelector("h2");
  heading.tabIndex = -1;
  heading.focus({ preventScroll: true });
  scrollTo(0, 0);
  history.replaceState({ step: at }, "", "#" + steps[at].id);
}

// nearest is the step at the top of the window, to begin where the reader is.
function nearest() {
  const below = steps.findIndex((s) => s.getBoundingClientRect().bottom > 80);
  return Math.max(below, 0);
}

function enter() {
  if (!steps.length) return;
  const first = nearest();
  history.pushState({ step: first }, "", "#" + steps[first].id);
  root.classList.add("stepping");
  stayAwake();
  show(first);
}

function leave() {
  root.classList.remove("stepping");
  if (lock) lock.release();
  lock = null;
  steps[at].scrollIntoView();
  document.querySelector("[data-do=steps]").focus({ preventScroll: true });
}

// The screen stays on while a step is read, where the device allows it.
async function stayAwake() {
  try {
    lock = await navigator.wakeLock.request("screen");
  } catch {
    lock = null;
  }
}

function key(event) {
  if (!open() || event.altKey || event.ctrlKey || event.metaKey) return;
  if (event.target.closest("input, select, textarea")) return;
  if (event.key === "ArrowRight" || event.key === "PageDown") show(at + 1);
  else if (event.key === "ArrowLeft" || event.key === "PageUp") show(at - 1);
  else if (event.key === "Escape") history.back();
  else return;
  event.preventDefault();
}

function swipe(event) {
  if (!open() || !touch) return;
  const end = event.changedTouches[0];
  const x = end.clientX - touch.clientX, y = end.clientY - touch.clientY;
  if (Math.abs(x) > FAR && Math.abs(x) > 2 * Math.abs(y)) show(at + (x < 0 ? 1 : -1));
  touch = null;
}

function find() {
  steps = all(".step");
  if (open()) mark(at);
}

export function startSteps() {
  find();
  renewed(find);
  on("steps", enter);
  on("full", () => history.back());
  on("back", () => show(at - 1));
  on("on", () => show(at + 1));
  hear("keydown", key);
  document.addEventListener("touchstart", (e) => { touch = e.touches.length === 1 ? e.touches[0] : null; }, { passive: true });
  document.addEventListener("touchend", swipe, { passive: true });
  addEventListener("popstate", () => open() && leave());
}

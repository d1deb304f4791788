// The script of a preview page. It listens to the server that the page came from: when the
// page has changed it puts in what is new, or loads it again at the place where the reader
// was, and it shows what was found in the course: errors at once, as a list over the page,
// warnings and notes as a small count that opens the list.

import { renew } from "./renew.js";

// The preview's own pages say what they show; pages of the site need not.
const own = document.documentElement.dataset;
let shown = own.page ?? tagOfPage();

let stream = null;
let latest = null; // state, as the server sends it
let turn = Promise.resolve(); // ends when the states so far have been followed
let dialog = null;
let opener = null;

// tagOfPage gives the name of the page's content, which the server sends beside
// it; undefined in browsers that do not tell.
function tagOfPage() {
  const [page] = performance.getEntriesByType("navigation");
  return page?.serverTiming?.find((entry) => entry.name === "plait")?.description;
}

// recall and keep use what outlives a reload. A browser may refuse to keep it: then
// the page starts at its top and shows the list again.
function recall(key) {
  try {
    return sessionStorage.getItem(`plait-preview/${key}`);
  } catch {
    return null;
  }
}

function keep(key, value) {
  try {
    sessionStorage.setItem(`plait-preview/${key}`, value);
  } catch {
    // See recall.
  }
}

// hear takes what the server says, one after the other; what is no longer the latest is
// no news.
function hear(state) {
  latest = state;
  turn = turn.then(() => latest === state && follow(state));
}

async function follow(state) {
  shown ??= state.page;
  let current = state.page === shown;
  if (!current && !state.whole) {
    try {
      shown = await renew();
      current = true;
    } catch {
      // What cannot be put in is loaded.
    }
  }
  const list = own.list ?? state.list;
  if (!current || state.list !== list) {
    if (reload(`${location.pathname} ${state.page} ${state.list === list ? "" : state.list}`)) return;
  } else {
    keep("loaded", "");
  }
  if (own.list === undefined) show(state);
}

// reload happens once for each state: a page that comes back as old as it was must
// not go round for ever.
function reload(state) {
  if (recall("loaded") === state) return false;
  keep("loaded", state);
  keep("place", JSON.stringify([location.pathname, scrollX, scrollY]));
  location.reload();
  return true;
}

function returnToPlace() {
  const place = JSON.parse(recall("place") || "[]");
  if (place[0] !== location.pathname) return;
  scrollTo({ left: place[1], top: place[2], behavior: "instant" });
}

async function show(state) {
  if (!state.list) {
    dialog?.remove();
    opener?.remove();
    dialog = opener = null;
    return;
  }
  const list = await fetchList();
  if (list === null || latest !== state) return; // a newer one is on its way
  if (!dialog) make();
  dialog.dataset.list = state.list;
  dialog.classList.toggle("plait-failed", state.failed);
  dialog.querySelector("div").innerHTML = list;
  opener.textContent = state.count || "Not built";
  opener.classList.toggle("plait-failed", state.failed);
  const wanted = state.failed ? recall("closed") !== state.list : recall("open") === "yes";
  if (wanted) open();
  else dialog.close();
  opener.hidden = dialog.open;
}

async function fetchList() {
  try {
    const answer = await fetch("/-/problems");
    return answer.ok ? await answer.text() : null;
  } catch {
    return null; // the server has gone; the next state brings the list
  }
}

function open() {
  if (!dialog.open) dialog.showModal();
  opener.hidden = true;
}

function make() {
  const link = document.createElement("link");
  link.rel = "stylesheet";
  link.href = "/-/preview.css";
  if (!document.querySelector(`link[href="${link.getAttribute("href")}"]`)) document.head.append(link);

  dialog = document.createElement("dialog");
  dialog.className = "plait-problems";
  dialog.setAttribute("aria-labelledby", "plait-problems-title");
  const close = button("Close", () => dialog.close());
  close.autofocus = true;
  const foot = document.createElement("footer");
  foot.append(close);
  dialog.append(document.createElement("div"), foot);
  dialog.addEventListener("close", () => {
    keep("closed", dialog.dataset.list);
    keep("open", "");
    opener.hidden = false;
    // Where the focus came from it goes back by itself, but not to what was hidden.
    const at = document.activeElement;
    if (at === document.body || dialog.contains(at)) opener.focus({ preventScroll: true });
  });
  // Keys that are pressed in the list are not meant for the page below it.
  dialog.addEventListener("keydown", (event) => event.stopPropagation());

  opener = button("", () => {
    keep("closed", "");
    keep("open", "yes");
    open();
  });
  opener.className = "plait-problems-opener";
  opener.setAttribute("aria-haspopup", "dialog");
  document.body.append(dialog, opener);
}

function button(text, act) {
  const b = document.createElement("button");
  b.type = "button";
  b.textContent = text;
  b.addEventListener("click", act);
  return b;
}

// A browser keeps only a few connections to one server, so pages that nobody looks
// at do not listen. They learn what they missed when they are seen again.
function listen() {
  if (document.hidden) return deafen();
  if (stream) return;
  stream = new EventSource("/-/events?page=" + encodeURIComponent(location.pathname));
  stream.addEventListener("state", (event) => hear(JSON.parse(event.data)));
  stream.addEventListener("error", () => {
    if (stream?.readyState !== EventSource.CLOSED) return; // it tries again by itself
    stream = null;
    setTimeout(listen, 2000);
  });
}

function deafen() {
  stream?.close();
  stream = null;
}

document.addEventListener("DOMContentLoaded", () => {
  returnToPlace();
  listen();
  document.addEventListener("visibilitychange", listen);
});
// Pictures may have changed the height of the page since.
addEventListener("load", () => {
  returnToPlace();
  keep("place", "");
});
// A browser may keep a page that is left, and show it as it was.
addEventListener("pagehide", deafen);
addEventListener("pageshow", listen);

// Putting what is new of a page into the page that is open. What has not changed stays as it
// is with all that a reader has done to it: bowls that were weighed again, open answers, the
// film and its place, the focus, the place on the page.
//
// The page as it came is held against the page as it would come now, since scripts have
// changed what is shown. A page says on its root that its scripts can do with new elements;
// once these are there they hear "renewed" (layouts/scripts/page.js).

let source = null; // the page as it came, or as it came last

const root = document.documentElement;

document.addEventListener("readystatechange", () => {
  if (document.readyState === "interactive" && root.dataset.renews) source = document.cloneNode(true);
});

// renew brings the open page up to date and returns the name of what it shows now. It
// fails where that takes a page that is loaded anew; what is shown may be half done then.
export async function renew() {
  if (!source) throw new Error("this page is loaded as a whole");
  const { page, tag } = await fetchPage();
  if (!sameFrame(page)) throw new Error("more has changed than the main part");
  const hold = holdPlace();
  const after = {}; // what is to be done when scripts have prepared what is new
  bring(document.querySelector("main"), source.querySelector("main"), page.querySelector("main"), false, after);
  bringHead(page);
  source = page;
  tellScripts();
  after.refocus?.();
  hold();
  return tag;
}

// fetchPage asks for the page as a document: that parses it without running its scripts, and
// no text is made markup by this script.
function fetchPage() {
  return new Promise((done, fail) => {
    const ask = new XMLHttpRequest();
    ask.open("GET", location.pathname);
    ask.responseType = "document";
    ask.timeout = 5000;
    ask.addEventListener("loadend", () => {
      const [, tag] = /plait;desc="(\w+)"/.exec(ask.getResponseHeader("Server-Timing")) ?? [];
      if (ask.status === 200 && ask.response && tag) done({ page: ask.response, tag });
      else fail(new Error("the page did not come"));
    });
    ask.send();
  });
}

const isText = (element) => element.matches("title, meta[name=description]");

// sameFrame reports whether the page differs from the one that is shown in nothing but its
// main part and the texts of its head. Templates are compared by themselves: what they
// hold is not among their children.
function sameFrame(page) {
  const frame = (doc) => [
    ...[...doc.head.children].filter((e) => !isText(e)),
    ...[...doc.body.children].filter((e) => !e.matches("main")),
  ];
  const templates = (doc) => [...doc.querySelectorAll("template")].map((t) => t.innerHTML).join();
  const was = frame(source), is = frame(page);
  return (
    is.length === was.length && is.every((e, i) => e.isEqualNode(was[i])) &&
    templates(page) === templates(source) &&
    page.body.className === source.body.className &&
    page.querySelectorAll("main").length === 1 &&
    ["lang", "data-course"].every((name) => page.documentElement.getAttribute(name) === root.getAttribute(name))
  );
}

// bring makes a shown node, which came as was, one that would come as is. Where attributes
// have changed scripts may have drawn on them, so what they prepared below is made anew.
function bring(shown, was, is, anew, after) {
  if (was.isEqualNode(is) && !(anew && shown.querySelector?.("[data-ready]"))) return;
  if (shown.nodeType !== Node.ELEMENT_NODE) {
    shown.data = is.data;
    return;
  }
  if (shown.matches("[data-ready]") || !twins(shown.childNodes, was.childNodes)) {
    swap(shown, is, after);
    return;
  }
  const changed = bringAttributes(shown, was, is);
  bringChildren(shown, was, is, anew || changed, after);
}

const alike = (a, b) => a.nodeType === b.nodeType && a.nodeName === b.nodeName;

// twins reports whether two lists of nodes can be gone through side by side.
const twins = (a, b) => a.length === b.length && [...a].every((node, i) => alike(node, b[i]));

function bringAttributes(shown, was, is) {
  const names = new Set([...was.getAttributeNames(), ...is.getAttributeNames()]);
  const changed = [...names].filter((name) => was.getAttribute(name) !== is.getAttribute(name));
  for (const name of changed) {
    if (is.hasAttribute(name)) shown.setAttribute(name, is.getAttribute(name));
    else shown.removeAttribute(name);
  }
  return changed.length > 0;
}

// bringChildren keeps what two lists begin and end with, and between these brings node for
// node as far as they are alike.
function bringChildren(shown, was, is, anew, after) {
  const olds = [...was.childNodes], news = [...is.childNodes], here = [...shown.childNodes];
  const most = Math.min(olds.length, news.length);
  let head = 0, tail = 0;
  while (head < most && olds[head].isEqualNode(news[head])) head++;
  while (tail < most - head && olds.at(-1 - tail).isEqualNode(news.at(-1 - tail))) tail++;
  for (let i = 0; i < head; i++) bring(here[i], olds[i], news[i], anew, after);
  for (let i = 1; i <= tail; i++) bring(here.at(-i), olds.at(-i), news.at(-i), anew, after);
  const end = here[olds.length - tail] ?? null;
  for (let i = head; i < Math.max(olds.length, news.length) - tail; i++) {
    const old = i < olds.length - tail ? olds[i] : null, next = i < news.length - tail ? news[i] : null;
    if (!old) shown.insertBefore(fresh(next), end);
    else if (!next) here[i].remove();
    else if (alike(old, next)) bring(here[i], old, next, anew, after);
    else swap(here[i], next, after);
  }
}

// fresh is a node of the new page for the one that is shown. A script would not run.
function fresh(node) {
  if (node.querySelector?.("script[src]") || node.matches?.("script[src]")) throw new Error("a script has come");
  return document.importNode(node, true);
}

// swap puts a new element in the place of one that is shown, with what was open in it.
function swap(shown, is, after) {
  const next = fresh(is);
  if (next.nodeType === Node.ELEMENT_NODE && shown.nodeType === Node.ELEMENT_NODE) {
    const were = shown.querySelectorAll("details"), are = next.querySelectorAll("details");
    if (were.length === are.length) are.forEach((d, i) => (d.open = were[i].open));
    if (shown.contains(document.activeElement)) after.refocus = focusIn(shown, next);
  }
  shown.replaceWith(next);
}

function bringHead(page) {
  document.title = page.title;
  const description = (doc) => doc.head.querySelector("meta[name=description]");
  description(document)?.remove();
  const next = description(page);
  if (next) document.querySelector("title").after(document.importNode(next));
}

// tellScripts lets the scripts of the page prepare what is new, and fails where one of
// them does.
function tellScripts() {
  let fault = null;
  const note = (event) => (fault = event.error ?? new Error(event.message));
  addEventListener("error", note);
  document.dispatchEvent(new Event("renewed"));
  removeEventListener("error", note);
  if (fault) throw fault;
}

// stops are the elements that a key stops at and that look to a reader like one of them.
function stops(within, like) {
  const look = (e) => `${e.tagName} ${e.className} ${e.getAttribute("aria-label") ?? e.textContent}`;
  return [...within.querySelectorAll("a, button, input, select, textarea, summary, [tabindex]")].filter((e) => look(e) === look(like));
}

// focusIn returns what gives the focus to what has come in the place of what had it, when
// scripts have prepared it.
function focusIn(shown, next) {
  const like = document.activeElement;
  const at = stops(shown, like).indexOf(like);
  return () => stops(next, like)[at]?.focus({ preventScroll: true });
}

// holdPlace returns what brings back to its height in the window what is at the top of it
// now: a text above it may become longer. The top of the page stays the top.
function holdPlace() {
  if (scrollY === 0) return () => {};
  const at = atTop();
  const was = at?.getBoundingClientRect().top;
  root.style.overflowAnchor = "none"; // browsers do the same for some changes
  return () => {
    const by = at?.isConnected ? at.getBoundingClientRect().top - was : 0;
    if (by) scrollBy({ top: by, behavior: "instant" });
    root.style.overflowAnchor = "";
  };
}

// atTop is the first element in the window that is not as tall as the window.
function atTop() {
  for (let y = 1; y < innerHeight / 2; y += 12) {
    const element = document.elementFromPoint(innerWidth / 2, y);
    if (element?.closest("main") && element.offsetHeight < innerHeight) return element;
  }
  return null;
}

// What a learner has answered, kept on the device. It is a set of reviews, each with its
// card, its second and whether it was right, and a set of signed practicals: two sets
// are put together by taking all of both, so nothing is ever lost and nothing counts
// twice, whatever the order.

import { root } from "./page.js";
import { changed, load, save } from "./store.js";

const NAME = "progress";
const PER_CARD = 400; // reviews of one card that are kept: more than years of them
let unkept = null; // progress that the store has refused, for as long as the page lives

const now = () => Math.floor(Date.now() / 1000);

// clean takes what may be anything, from a file or a link, for what it should be.
function clean(data) {
  const out = { reviews: {}, signed: {} };
  for (const [card, list] of Object.entries((data && data.reviews) || {})) {
    if (!/^[^\p{C}]{1,160}$/u.test(card) || card === "__proto__" || !Array.isArray(list)) continue;
    const good = list.filter((n) => Number.isSafeInteger(n) && n > 0);
    if (good.length) out.reviews[card] = good.slice(-PER_CARD);
  }
  for (const [card, list] of Object.entries((data && data.signed) || {})) {
    if (card === "__proto__" || !Array.isArray(list)) continue;
    out.signed[card] = list.filter((s) => s && [s.assessor, s.date].every((t) => typeof t === "string" && t.length <= 80)).map(word);
  }
  return out;
}

// word is an assessor's word on a practical: who, when, what came of it, and which points
// were shown.
const word = ({ assessor, date, outcome, shown }) => ({
  assessor, date, outcome: outcome === "not yet" ? outcome : "shown", shown: Array.isArray(shown) ? shown.filter((n) => Number.isInteger(n) && n >= 0).slice(0, 100) : [],
});

const union = (a, b, key) => [...new Map([...a, ...b].map((x) => [key(x), x])).values()];

// merge puts two sets of progress together.
export function merge(a, b) {
  const out = { reviews: {}, signed: {} };
  const each = (part, join) => {
    const of = (set, card) => (Object.hasOwn(set[part], card) ? set[part][card] : []);
    for (const card of new Set([...Object.keys(a[part]), ...Object.keys(b[part])])) out[part][card] = join(of(a, card), of(b, card));
  };
  each("reviews", (x, y) => union(x, y, String).sort((m, n) => m - n));
  each("signed", (x, y) => union(x, y, (s) => JSON.stringify([s.date, s.outcome, s.assessor])).sort((m, n) => (m.date + m.outcome < n.date + n.outcome ? -1 : 1)));
  return out;
}

// progress is read from the store each time: another page may have added to it, or wiped it.
export const progress = () => unkept || clean(load(NAME, null));

// add puts more progress to what is there. It reports whether that is kept.
export const add = (more) => put(merge(merge(progress(), clean(load(NAME, null))), clean(more)));

export const wipe = () => put(clean(null));

function put(all) {
  unkept = save(NAME, all) ? null : all;
  return !unkept;
}

// review notes an answer. A second and its verdict are one number.
export const review = (card, right) => add({ reviews: { [card]: [now() * 2 + (right ? 1 : 0)] } });

export const sign = (card, said) => add({ signed: { [card]: [said] } });

export const onChange = (run) => changed(NAME, run);

// keeps reports whether this device keeps anything: a private window or a full store
// does not.
export function keeps() {
  try {
    const key = "plait/probe";
    localStorage.setItem(key, "1");
    localStorage.removeItem(key);
    return !unkept;
  } catch {
    return false;
  }
}

export const NOT_KEPT = "This device keeps nothing here: the window is private, or its store is full. Save your progress as a file on the revise page before you close it.";

// Where a browser gives each file a store of its own, progress travels in the link to
// the pages that show it, and is put together there.
const MARK = "#progress=";
const LONGEST = 200000;

const pack = (data) => btoa(unescape(encodeURIComponent(JSON.stringify(data)))).replace(/\+/g, "-").replace(/\//g, "_").replace(/=/g, "");
const unpack = (text) => JSON.parse(decodeURIComponent(escape(atob(text.replace(/-/g, "+").replace(/_/g, "/")))));

export const fromFolder = () => location.protocol === "file:";

function receive() {
  if (!location.hash.startsWith(MARK)) return;
  try {
    if (location.hash.length < LONGEST) add(unpack(location.hash.slice(MARK.length)));
  } catch {
    // A damaged link carries nothing.
  }
  history.replaceState(null, "", location.pathname + location.search);
}

function carry(event) {
  const link = event.target.closest && event.target.closest("a[href]");
  if (!link || !/(^|\/)(revise|index|papers\/[^/]+)\.html$/.test(link.getAttribute("href").split("#")[0])) return;
  const text = pack(progress());
  if (Object.values(progress()).some((part) => Object.keys(part).length) && text.length < LONGEST) link.hash = MARK.slice(1) + text;
}

export function startProgress() {
  receive();
  addEventListener("hashchange", receive);
  if (fromFolder()) for (const type of ["pointerdown", "keydown", "click"]) document.addEventListener(type, carry, true);
}

// file is the progress as a file to take away.
export const file = () => JSON.stringify({ plait: "progress", version: 1, course: root.dataset.course, ...progress() });

// take puts a file's progress to what is there; an error says why it cannot.
export function take(text) {
  let data;
  try {
    data = JSON.parse(text);
  } catch {
    throw new Error("That file cannot be read. Choose one that was saved here.");
  }
  if (!data || data.plait !== "progress" || data.version !== 1) throw new Error("That is no file of progress. Choose one that was saved here.");
  if (data.course !== root.dataset.course) throw new Error(`That file belongs to another course: ${String(data.course).slice(0, 80)}.`);
  const before = count(progress());
  add(data);
  return count(progress()) - before;
}

const count = (p) => Object.values(p.reviews).reduce((n, list) => n + list.length, 0);

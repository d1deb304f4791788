// Cards of questions and practicals: judging an answer, saying what went wrong, asking
// once more with other figures. A lesson and the revise page use them alike.

import { exactly, near, read } from "./answer.js";
import { all, each, on } from "./page.js";
import { startPlaces } from "./places.js";
import { keeps, NOT_KEPT, progress, review, sign } from "./progress.js";

const same = (a, b) => a.length === b.length && a.every((x, i) => x === b[i]);
const checked = (form) => all("input:checked", form).map((i) => Number(i.value));

// Each kind reads its form: a value and whether it is right, or what is still missing.
const kinds = {
  number({ form, data }) {
    const text = form.elements[0].value;
    if (!text.trim()) return { missing: "Write your answer first." };
    const value = read(text, data.unit);
    if (!value) return { missing: "That cannot be read. Write " + (data.unit === "ratio" ? "a ratio, such as 1:1.5." : data.unit === "clock" ? "a time of day, such as 10:52." : "a number, such as 67.5.") };
    return { right: near(value, data.value, data.near), slip: (wrong) => near(value, wrong, data.near) };
  },
  level({ form, data }) {
    const [level] = checked(form);
    if (!level) return { missing: "Choose a level first." };
    const value = exactly(String(level));
    return { right: near(value, data.value, data.near), slip: (wrong) => near(value, wrong, data.near) };
  },
  choose({ form, data }) {
    const chosen = checked(form);
    if (!chosen.length) return { missing: "Choose first." };
    return { right: same(chosen, data.right), slip: (option) => chosen.includes(Number(option)) && !data.right.includes(Number(option)) };
  },
  order({ form, data }) {
    return { right: same(all("li", form).map((li) => Number(li.dataset.at)), data.right), slip: () => false };
  },
  pairs({ form, data }) {
    const chosen = all("select", form).map((s) => s.value);
    if (chosen.includes("")) return { missing: "Give every one its partner first." };
    const wrong = chosen.filter((v, i) => Number(v) !== data.right[i]).length;
    return { right: !wrong, slip: () => false, more: wrong === 1 ? "One pair is wrong." : `${wrong} pairs are wrong.` };
  },
};
kinds.place = kinds.choose;

class Card {
  constructor(section, data) {
    this.section = section;
    this.id = section.dataset.card;
    this.form = section.querySelector("form");
    this.out = section.querySelector(".said");
    this.details = section.querySelector("details");
    this.first = this.data = data;
    this.next = 0;
    this.form.addEventListener("submit", (e) => {
      e.preventDefault();
      this.judge();
    });
    this.form.addEventListener("input", () => this.say("", ""));
    const list = progress().reviews[this.id];
    if (list) this.mark(list[list.length - 1] % 2 === 1);
  }

  say(text, kind) {
    this.out.textContent = text;
    this.out.className = "said " + kind;
  }

  mark(right) { this.section.classList.toggle("known", right); }

  judge() {
    const result = kinds[this.section.dataset.kind](this);
    if (result.missing) return this.say(result.missing, "missing");
    this.mark(result.right);
    const kept = review(this.id, result.right);
    const slip = !result.right && (this.data.slips || []).find(([wrong]) => result.slip(wrong));
    const because = this.data === this.first && this.details.querySelector(".because");
    const text = result.right ? "Right. " + (because ? because.textContent : "") : `Not yet. ${slip ? slip[1] : result.more || "Look again, or open the answer."}`;
    this.say(text.trim() + (kept ? "" : " " + NOT_KEPT), result.right ? "right" : "wrong");
    if (result.right) this.details.open = true;
    this.section.dispatchEvent(new CustomEvent("answered", { bubbles: true, detail: result.right }));
  }

  // another asks with the next figures; after the last of them the first come again.
  another() {
    const all = [...this.first.variants, null];
    const v = all[this.next % all.length];
    this.next++;
    if (!this.told) this.told = { ask: this.text("h3"), truth: this.text(".truth"), working: this.lines() };
    this.data = v ? { ...this.first, ...v } : this.first;
    const shown = v || this.told;
    this.section.querySelector("h3").textContent = shown.ask;
    this.section.querySelector(".truth").textContent = shown.truth;
    const because = this.details.querySelector(".because");
    if (because) because.hidden = Boolean(v);
    const list = this.details.querySelector(".sum");
    if (list) list.replaceChildren(...(shown.working || []).map((line) => Object.assign(document.createElement("li"), { textContent: line })));
    this.reset();
    (this.form.querySelector("input") || this.form.querySelector("button")).focus();
  }

  text(selector) { return this.section.querySelector(selector).textContent; }
  lines() { return all(".sum li", this.details).map((li) => li.textContent); }

  reset() {
    this.form.reset();
    this.details.open = false;
    this.say("", "");
  }
}

const cards = new WeakMap();

// cardOf is the card of an element in it.
export const cardOf = (element) => cards.get(element.closest(".question"));

// move shifts one thing of an order by one place; the button keeps the focus.
function move(button, by) {
  const li = button.closest("li"), other = by < 0 ? li.previousElementSibling : li.nextElementSibling;
  const card = cardOf(button);
  if (!other) return card.say(by < 0 ? "That stands first already." : "That stands last already.", "missing");
  if (by < 0) other.before(li);
  else other.after(li);
  button.focus();
  const items = [...li.parentNode.children];
  card.say(`${li.firstElementChild.textContent}: now ${items.indexOf(li) + 1} of ${items.length}.`, "moved");
}

const verdict = ({ outcome, assessor, date }) => `${outcome === "shown" ? "Signed off" : "Not yet"}, says ${assessor} on ${date}.`;

// signOff keeps an assessor's word: shown, once every point is ticked, or not yet.
function signOff(button) {
  const section = button.closest(".practical"), out = section.querySelector(".said");
  const field = (name) => section.querySelector(`[data-field=${name}]`).value.trim();
  const ticks = all("input[type=checkbox]", section), open = ticks.filter((i) => !i.checked).length, outcome = button.value;
  const say = (text, kind) => {
    out.textContent = text;
    out.className = "said " + kind;
  };
  if (open && outcome === "shown") return say(open === 1 ? "One point is not ticked yet." : `${open} points are not ticked yet.`, "missing");
  if (!field("assessor") || !field("date")) return say("An assessor and a date belong to it.", "missing");
  const said = { assessor: field("assessor"), date: field("date"), outcome, shown: ticks.flatMap((i, n) => (i.checked ? [n] : [])) };
  const kept = sign(section.dataset.card, said);
  section.classList.toggle("known", outcome === "shown");
  say(verdict(said) + (kept ? "" : " " + NOT_KEPT), outcome === "shown" ? "right" : "wrong");
}

// printSheet prints one practical without the rest of the page.
function printSheet(section) {
  const page = document.documentElement;
  const marks = [[page, "only-card"], [section, "chosen"], [section.closest(".step"), "carries"]];
  const set = (there) => marks.forEach(([el, name]) => el && el.classList.toggle(name, there));
  set(true);
  addEventListener("afterprint", () => set(false), { once: true });
  print();
}

export function startQuestions(data) {
  each(".question[data-card]", (section) => cards.set(section, new Card(section, data[section.dataset.card])));
  each(".practical", (section) => {
    const list = progress().signed[section.dataset.card];
    if (!list || !list.length) return;
    const last = list[list.length - 1];
    section.classList.toggle("known", last.outcome === "shown");
    section.querySelector(".said").textContent = verdict(last);
  });
  startPlaces();
  on("another", (b) => cardOf(b).another());
  on("up", (b) => move(b, -1));
  on("down", (b) => move(b, 1));
  on("sign", signOff);
  on("signoff", (b) => printSheet(b.closest(".practical")));
  if (!keeps()) all(".question .said, .practical .said").slice(0, 1).forEach((out) => (out.textContent = NOT_KEPT));
}

// The one script of the revise page.

import { all, on, root, startPage } from "./page.js";
import { count, dueCards } from "./due.js";
import { file, fromFolder, keeps, NOT_KEPT, onChange, progress, review, startProgress, take, wipe } from "./progress.js";
import { startQuestions } from "./question.js";
import { startTimers } from "./timers.js";

const MOST_NEW = 10; // cards nobody has seen, at a time

let cards = [];
let queue = [];
let done = 0;
const find = (selector) => document.querySelector(selector);

const wanted = () => new Set(all(".picks input:checked").map((i) => i.value));

// waiting lists what is due, then some that were never answered.
function waiting() {
  const kinds = wanted(), reviews = progress().reviews;
  const here = new Map(cards.filter((c) => kinds.has(c.dataset.kind)).map((c) => [c.dataset.card, c]));
  const due = dueCards().filter((card) => here.has(card)).map((card) => here.get(card));
  const fresh = [...here.values()].filter((c) => !reviews[c.dataset.card]);
  return { due, fresh };
}

function tally(text) {
  const { due, fresh } = waiting();
  find(".tally").textContent = text || `${count(due.length, "card")} due, ${fresh.length} not begun.`;
  find("[data-do=begin]").disabled = !due.length && !fresh.length;
}

function show(card) {
  cards.forEach((c) => c.classList.toggle("now", c === card));
  if (!card) return;
  card.querySelector("[data-do=next]").hidden = true;
  const details = card.querySelector("details");
  details.open = false;
  const heading = card.querySelector("h3");
  heading.tabIndex = -1;
  heading.focus({ preventScroll: true });
  scrollTo(0, 0);
  find(".tally").textContent = `Card ${done + 1}, ${queue.length} to go.`;
}

function begin() {
  const { due, fresh } = waiting();
  queue = [...due, ...fresh.slice(0, MOST_NEW)];
  done = 0;
  root.classList.add("revising");
  find("[data-do=begin]").hidden = true;
  find("[data-do=leave]").hidden = false;
  next();
}

function next() {
  const card = queue.shift();
  if (card) show(card);
  else leave(`Done: ${count(done, "card")} today. What you knew comes back later, what you did not tomorrow.`);
}

function leave(text) {
  root.classList.remove("revising");
  show(null);
  find("[data-do=begin]").hidden = false;
  find("[data-do=leave]").hidden = true;
  tally(text);
  find("[data-do=begin]").focus();
}

function grade(button, right) {
  const kept = review(button.closest(".card").dataset.card, right);
  done++;
  if (!kept) say(NOT_KEPT);
  if (root.classList.contains("revising")) next();
  else tally();
}

const say = (text) => (find(".kept").textContent = text);

function save() {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([file()], { type: "application/json" }));
  link.download = `progress-${root.dataset.course}.json`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
  say("Saved as a file.");
}

async function readIn(input) {
  const chosen = input.files[0];
  input.value = "";
  if (!chosen) return;
  try {
    if (chosen.size > 5e6) throw new Error("That file is too large to be progress.");
    const more = take(await chosen.text());
    say(`${count(more, "answer")} read in.` + (keeps() ? "" : " " + NOT_KEPT));
  } catch (e) {
    say(e.message);
  }
  tally();
}

// The button asks once, since what it does cannot be taken back.
function anew(button) {
  if (!button.dataset.sure) {
    button.dataset.sure = "yes";
    button.textContent = "Really forget everything?";
    setTimeout(() => {
      delete button.dataset.sure;
      button.textContent = "Begin anew";
    }, 4000);
    return;
  }
  wipe();
  tally();
  say("All progress on this device is gone.");
}

startPage(() => {
  startProgress();
  startTimers();
  startQuestions(JSON.parse(find("main > script").textContent));
  cards = all(".card");
  on("begin", begin);
  on("leave", () => leave());
  on("next", next);
  on("knew", (b) => grade(b, true));
  on("forgot", (b) => grade(b, false));
  on("export", save);
  on("wipe", anew);
  document.addEventListener("answered", (e) => {
    const button = e.target.closest(".card").querySelector("[data-do=next]");
    if (button.hidden) done++;
    button.hidden = !root.classList.contains("revising");
    if (!root.classList.contains("revising")) tally();
  });
  all(".picks input").forEach((i) => i.addEventListener("change", () => tally()));
  find("input[type=file]").addEventListener("change", (e) => readIn(e.target));
  find(".folder").hidden = !fromFolder();
  if (!keeps()) say(NOT_KEPT);
  onChange(() => tally());
  addEventListener("hashchange", () => tally());
  tally();
});

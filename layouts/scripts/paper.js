// A paper: draws one learner's questions, counts the time down, keeps what is answered
// on the device, and saves and opens answer files.

import { digest, isContent, plain, write } from "./answerfile.js";
import { lots, seed } from "./lot.js";
import { all, on } from "./page.js";
import { lightAll, startPlaces } from "./places.js";
import { progress } from "./progress.js";
import { load, save } from "./store.js";

let data, article, sheet; // sheet is the answer file in the making, null before a draw

const find = (selector) => article.querySelector(selector);
const key = () => "paper/" + data.paper;

// draw says which questions are asked, in order, and with which figures; as the program
// does.
export function draw(paper, number) {
  const lot = lots(number), taken = new Set(), asked = [];
  for (const { n, pool } of paper.draws) {
    const free = pool.filter((q) => !taken.has(q));
    for (const i of lot.draw(Math.min(n, free.length), free.length)) {
      taken.add(free[i]);
      asked.push({ question: free[i], figures: lot.below(paper.figures[free[i]]) });
    }
  }
  return asked;
}

// begin draws the questions of a learner. Who has begun on this device goes on; what another has
// not handed in yet is not lost without a word.
function begin(name, group) {
  const number = seed(data.paper, name, group).toString(16).padStart(16, "0"), kept = keptSheet(), form = find(".who");
  if (kept && kept.seed === number) {
    show(kept);
  } else if (kept && kept.answers.length && !kept.saved && form.dataset.sure !== number) {
    form.dataset.sure = number;
    find(".who .said").textContent = `${kept.learner.name} has answered here and not handed in. Press again to lose those answers and draw your own questions.`;
    return;
  } else {
    show({
      answers: [], course: data.course, edition: data.edition, learner: { class: group, name }, paper: data.paper,
      practicals: [], saved: "", seed: number, started: now(), text: data.text, version: 1,
    });
  }
  find(".drawn").focus();
}

// keptSheet is what this device has kept of the paper as it is now, null for nothing.
function keptSheet() {
  const kept = load(key(), null);
  return isContent(kept) && kept.text === data.text ? kept : null;
}

const now = () => new Date().toISOString().replace(/\.\d+Z/, "Z");

// show lays out the questions of a sheet and fills in what it answers.
function show(file) {
  sheet = file;
  const blocks = all(".asked", article), list = find(".questions");
  blocks.forEach((block) => (block.hidden = true));
  draw(data, BigInt("0x" + sheet.seed)).forEach(({ question, figures }, i) => {
    const block = blocks.find((b) => b.dataset.at === String(question));
    block.hidden = false;
    [...block.children].forEach((section, f) => (section.hidden = f !== figures));
    const section = block.children[figures];
    section.querySelector(".count").textContent = `Question ${i + 1}`;
    fill(section, (sheet.answers.find((a) => a.question === block.dataset.question) || { given: "" }).given);
    list.append(block);
  });
  bring();
  all("[data-practical]", article).forEach(fillPractical);
  lightAll();
  article.classList.add("sitting");
  find(".exambar").hidden = find(".drawn").hidden = false;
  find(".learner").textContent = sheet.learner.name + (sheet.learner.class ? ", " + sheet.learner.class : "");
  [...find(".name-lines").querySelectorAll("i")].forEach((line, i) => (line.textContent = [sheet.learner.name, sheet.learner.class, ""][i]));
  keep();
  tick();
}

// given reads what is answered in a section: typed text, or numbers with spaces between.
function given(section) {
  const kind = section.dataset.kind;
  if (kind === "number") return plain(section.querySelector("input").value);
  if (kind === "choose" || kind === "level") return all("input:checked", section).map((i) => i.value).join(" ");
  const list = all("select", section).map((s) => s.value || "-");
  return list.every((v) => v === "-") ? "" : list.join(" ");
}

function fill(section, text) {
  const kind = section.dataset.kind, parts = text.split(" ");
  if (kind === "number") section.querySelector("input").value = text;
  else if (kind === "choose" || kind === "level") all("input", section).forEach((i) => (i.checked = parts.includes(i.value)));
  else all("select", section).forEach((s, i) => (s.value = parts[i] === "-" ? "" : parts[i] || ""));
}

const asked = () => all(".asked:not([hidden])", article).map((block) => [block, block.querySelector(".question:not([hidden])")]);

// collect takes what stands on the page into the sheet.
function collect() {
  sheet.answers = [];
  for (const [block, section] of asked()) {
    const text = given(section);
    if (text) sheet.answers.push({ figures: [...block.children].indexOf(section), given: text, question: block.dataset.question });
  }
  const ticked = all(".brought input:checked", article).map((i) => JSON.parse(i.value));
  sheet.practicals = once([...all(".signed", article).map(signOff).filter(Boolean), ...ticked]);
}

const field = (form, name) => form.querySelector(`[data-field=${name}]`);

// signOff is one assessor's word, or null while something is missing.
function signOff(form) {
  const verdict = form.querySelector(".verdict :checked"), assessor = plain(field(form, "assessor").value), date = field(form, "date").value;
  if (!verdict || !assessor || !date) return null;
  return {
    assessor, date, outcome: verdict.value, practical: form.closest("[data-practical]").dataset.practical,
    shown: all(".ticks input:checked", form).map((i) => Number(i.value)),
  };
}

// once leaves out what is there a second time.
const once = (list) => [...new Map(list.map((s) => [JSON.stringify([s.practical, s.date, s.outcome, s.assessor]), s])).values()];

// bring lists what was signed on the pages of lessons on this device, and what the file
// holds beyond the forms of this page. Who shares the device ticks what is theirs.
function bring() {
  const signed = Object.entries(progress().signed).flatMap(([practical, list]) => list.map((s) => ({ ...s, practical })));
  const [own, all] = [once(sheet.practicals), once([...sheet.practicals, ...signed])];
  find(".brought").hidden = !all.length;
  find(".brought .ticks").replaceChildren(...all.map((s, i) => {
    const label = document.createElement("label"), box = document.createElement("input"), text = document.createElement("span");
    box.type = "checkbox";
    box.value = JSON.stringify(s);
    box.checked = i < own.length;
    text.textContent = `${s.practical.replace(/-/g, " ").replace("/", ": ")}: ${s.outcome}, ${s.assessor}, ${s.date}`;
    label.append(box, text);
    return label;
  }));
}

function fillPractical(section) {
  const list = sheet.practicals.filter((p) => p.practical === section.dataset.practical);
  all(".signed", section).forEach((form, n) => {
    const p = list[n] || { assessor: "", date: "", outcome: "", shown: [] };
    if (list[n] && form.parentNode.open === false) form.parentNode.open = true;
    field(form, "assessor").value = p.assessor;
    field(form, "date").value = p.date;
    all(".verdict input", form).forEach((i) => (i.checked = i.value === p.outcome));
    all(".ticks input", form).forEach((i) => (i.checked = p.shown.includes(Number(i.value))));
  });
}

function keep() {
  collect();
  if (!save(key(), sheet)) say("This device keeps nothing here: the window is private, or its store is full. Hand in before you close the page.");
  all("[type=date]", article).forEach((d) => d.classList.toggle("set", d.value !== ""));
  const n = sheet.answers.length, of = asked().length;
  find(".done").textContent = `${n} of ${of} answered`;
}

function say(text) {
  find(".said.live").textContent = text;
}

let told = 0;

// tick shows the time that is left, and says twice how much that is.
function tick() {
  if (!sheet || !data.minutes) return;
  const end = Date.parse(sheet.started) + data.minutes * 60000, left = Math.ceil((end - Date.now()) / 1000);
  const out = find(".left"), seconds = Math.abs(left);
  const clock = `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
  out.textContent = left >= 0 ? `${clock} left` : `${clock} over`;
  out.classList.toggle("over", left < 0);
  const step = left <= 0 ? 3 : left <= 60 ? 2 : left <= 300 ? 1 : 0;
  if (step > told) say(["", "Five minutes are left.", "One minute is left.", "The time is up. Hand in now: how long it took is in the file."][step]);
  told = Math.max(told, step);
}

function handIn() {
  collect();
  const open = asked().length - sheet.answers.length;
  sheet.saved = now();
  save(key(), sheet);
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([write(sheet)], { type: "application/json" }));
  const name = [sheet.paper, sheet.learner.class, sheet.learner.name].join(" ").normalize("NFD").replace(/[^A-Za-z0-9]+/g, "-").replace(/^-|-$/g, "").toLowerCase();
  link.download = name + ".json";
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
  say(`Saved as ${name}.json, where this browser puts what it downloads.` + (open ? ` ${open === 1 ? "One question is" : open + " questions are"} not answered.` : ""));
}

// openFile reads an answer file of this paper back in, and says what is odd about it.
async function openFile(input) {
  const out = find(".who .said"), file = input.files[0];
  if (!file) return;
  input.value = "";
  out.textContent = "";
  try {
    if (file.size > 256 << 10) throw 0;
    const read = JSON.parse(await file.text());
    if (!isContent(read)) throw 0;
    if (read.course !== data.course || read.paper !== data.paper) return (out.textContent = "This is an answer file of another paper.");
    if (read.text !== data.text) return (out.textContent = "The questions of this paper have changed since that file was saved.");
    const whole = digest(read) === read.digest;
    delete read.digest;
    show(read);
    say(whole ? "Opened." : "Opened, but the file was damaged or changed since it was saved: look at every answer.");
    find(".drawn").focus();
  } catch {
    out.textContent = "This is not an answer file.";
  }
}

export function startPaper() {
  article = document.querySelector(".exam");
  if (!article) return;
  data = JSON.parse(find("script").textContent);
  all(".asked", article).forEach((block, i) => (block.dataset.at = i));
  find(".who").addEventListener("submit", (event) => {
    event.preventDefault();
    const name = plain(find("#exam_name").value);
    if (name) begin(name, plain(find("#exam_class").value));
    else find(".who .said").textContent = "Write your name: your questions are drawn by it.";
  });
  find(".sheet").addEventListener("input", () => sheet && keep());
  find(".sheet").addEventListener("submit", (event) => event.preventDefault());
  find("#exam_file").addEventListener("change", (event) => openFile(event.target));
  startPlaces();
  on("open", () => find("#exam_file").click());
  on("save", handIn);
  on("print", () => print());
  on("resume", () => show(keptSheet()));
  const kept = keptSheet();
  if (kept) resume(kept);
  setInterval(tick, 1000);
}

// resume offers to go on where this device was left.
function resume(kept) {
  const p = find(".resume");
  p.hidden = false;
  p.querySelector("span").textContent = `${kept.learner.name} began here on ${new Date(kept.started).toLocaleString()}.`;
}

// Bowls: weighing one again for another amount, after a slip of the hand, and
// taking its card away on paper or as text.

import { add, cmp, decimal, mul, parse, sub, zero } from "./exact.js";
import { rescue, split, toColour, toPart, total } from "./mix.js";
import { all, copyOf, each, on, root } from "./page.js";

// A bowl that grows past this many times its planned size is better begun anew.
const MOST = parse("2");

const grams = (w) => decimal(w) + "\u00a0g";

const readers = new WeakMap();

function read(section) {
  const data = JSON.parse(section.querySelector("script").textContent);
  const weights = data.weights.map(parse), step = parse(data.step);
  return {
    names: all(".weigh tbody b", section).map((b) => b.textContent),
    kinds: data.kinds,
    colour: data.colour,
    step,
    weights,
    weighed: split(weights, step),
  };
}

const sumOf = (bowl, kind) => total(bowl.weighed.filter((w, i) => bowl.kinds[i] === kind));

// makeUp says what the total of a bowl is made of.
function makeUp(bowl) {
  return [["colour", bowl.colour], ["extra", "additives"], ["developer", "developer"]]
    .filter(([kind]) => bowl.kinds.includes(kind))
    .map(([kind, word]) => `${grams(sumOf(bowl, kind))} ${word}`)
    .join(" + ");
}

// show writes the weights of a bowl into its card.
function show(section, bowl) {
  let sum = zero;
  const totals = [];
  all(".weigh tbody tr", section).forEach((row, i) => {
    sum = add(sum, bowl.weighed[i]);
    totals.push(sum);
    row.cells[1].textContent = grams(bowl.weighed[i]);
    row.cells[2].textContent = grams(sum);
  });
  const foot = section.querySelector(".weigh tfoot tr");
  foot.cells[0].querySelector("span").textContent = makeUp(bowl);
  foot.cells[1].textContent = grams(sum);
  all("[data-upto]", section).forEach((mark) => {
    const n = Number(mark.dataset.upto);
    mark.textContent = n ? grams(totals[n - 1]) : "0";
  });
}

// asText is the card as lines of text.
function asText(section, bowl) {
  const lines = [["h3", ".said"].map((s) => section.querySelector(s).textContent).join(": ")];
  let sum = zero;
  bowl.weighed.forEach((w, i) => {
    sum = add(sum, w);
    lines.push(`${bowl.names[i]}: ${grams(w)}, running total ${grams(sum)}`);
  });
  lines.push(`In the bowl: ${grams(sum)}, ${makeUp(bowl)}`);
  all(".reads > div", section).forEach((d) => {
    lines.push(`${d.querySelector("dt").textContent}: ${d.querySelector("dd").textContent.trim()}`);
  });
  lines.push("Local codes, licensed practice and the maker’s directions rule.");
  return lines.join("\n");
}

// afterSlip answers "poured too much" of one part: what to bring the others to, or
// to begin anew. The other parts are taken as poured no further than planned, so
// the answer is the same whichever of them is in the bowl already.
function afterSlip(plan, part, poured) {
  const name = plan.names[part];
  if (cmp(poured, plan.weighed[part]) <= 0) {
    const short = sub(plan.weighed[part], poured);
    return { text: cmp(short, zero) ? `That is not too much: add ${grams(short)} of ${name}.` : "That is just right." };
  }
  const { bowl } = rescue(plan, plan.weights.map((w, i) => (i === part ? poured : zero)));
  if (cmp(total(bowl.weights), mul(total(plan.weights), MOST)) > 0) {
    return { text: `Start again: to keep the formula the bowl would grow from ${grams(total(plan.weighed))} to ${grams(total(bowl.weighed))}.` };
  }
  const others = bowl.weighed
    .map((w, i) => (i === part ? "" : `${bowl.names[i]} to ${grams(w)} (${grams(sub(w, plan.weighed[i]))} more than planned)`))
    .filter(Boolean);
  const bring = others.length ? ` Bring ${others.join(" and ")}.` : "";
  return { bowl, text: `Leave the ${name}.${bring} The bowl then holds ${grams(total(bowl.weighed))}; if it is too small for that, start again.` };
}

// Again is the part of a card that weighs its bowl again. The plan is the bowl
// for the weight last asked for; a slip of the hand is mended from there.
class Again {
  constructor(section, form) {
    this.section = section;
    this.form = form;
    this.card = this.plan = this.shown = read(section);
    this.out = form.querySelector("output");
    this.reset = form.querySelector(".card");
    this.lines = Object.fromEntries(all("[data-way]", form).map((l) => [l.dataset.way, l]));
    this.prepare();
    form.addEventListener("input", () => this.update());
    form.addEventListener("click", (e) => this.nudge(e.target));
    this.reset.addEventListener("click", () => this.back());
  }

  prepare() {
    all("input[type=radio]", this.form).forEach((r) => (r.name = "again-" + this.section.id));
    this.field("colour").value = decimal(sumOf(this.card, "colour"));
    if (this.card.colour !== "colour") {
      const label = "Powder in all";
      this.lines.colour.querySelector("span").textContent = label;
      this.field("colour").setAttribute("aria-label", label + ", grams");
    }
    this.card.names.forEach((name, i) => {
      if (this.card.kinds[i] === "colour") this.pick("left").add(new Option(name, i));
      this.pick("over").add(new Option(name, i));
    });
  }

  field(way) { return this.lines[way].querySelector("input"); }
  pick(way) { return this.lines[way].querySelector("select"); }

  // The buttons beside the weight, for hands that do not want to type.
  nudge(target) {
    const by = target.classList.contains("more") ? 5 : target.classList.contains("less") ? -5 : 0;
    if (!by) return;
    const field = this.field("colour");
    const now = Number(field.value.replace(",", ".")) || 0;
    field.value = String(Math.max(5, Math.round(now / 5) * 5 + by));
    this.update();
  }

  back() {
    this.plan = this.card;
    this.field("colour").value = decimal(sumOf(this.card, "colour"));
    this.field("left").value = this.field("over").value = "";
    this.show(this.card, "");
  }

  show(bowl, text, wrong) {
    this.shown = bowl;
    show(this.section, bowl);
    const changed = bowl !== this.card;
    this.section.classList.toggle("changed", changed);
    this.reset.hidden = !changed;
    this.out.classList.toggle("wrong", Boolean(wrong));
    this.out.textContent = text;
  }

  update() {
    const way = this.form.querySelector("input:checked").value;
    for (const name in this.lines) this.lines[name].hidden = name !== way;
    const field = this.field(way);
    const empty = field.value.trim() === "";
    const weight = parse(field.value);
    const bad = !empty && (!weight || cmp(weight, zero) <= 0);
    field.setAttribute("aria-invalid", String(bad));
    if (bad) this.show(this.plan, "Write a weight in grams, such as 14 or 14.5.", true);
    else if (empty) this.show(this.plan, "");
    else this[way](weight);
  }

  colour(weight) {
    this.plan = cmp(weight, sumOf(this.card, "colour")) ? toColour(this.card, weight) : this.card;
    this.show(this.plan, this.plan === this.card ? "" : `For ${grams(weight)} of ${this.card.colour} the bowl holds ${grams(total(this.plan.weighed))}.`);
  }

  left(weight) {
    const part = Number(this.pick("left").value);
    this.plan = toPart(this.card, part, weight);
    this.show(this.plan, `${grams(weight)} of ${this.card.names[part]} make a bowl of ${grams(total(this.plan.weighed))}: ${makeUp(this.plan)}.`);
  }

  over(poured) {
    const { bowl, text } = afterSlip(this.plan, Number(this.pick("over").value), poured);
    this.show(bowl || this.plan, text);
  }
}

function copyText(text) {
  if (navigator.clipboard && isSecureContext) return navigator.clipboard.writeText(text);
  const area = document.createElement("textarea");
  area.value = text;
  document.body.append(area);
  area.select();
  const done = document.execCommand("copy");
  area.remove();
  return done ? Promise.resolve() : Promise.reject();
}

// printCard prints one bowl without the rest of the page.
function printCard(section) {
  const marks = [[root, "only-card"], [section, "chosen"], [section.closest(".step"), "carries"]];
  const mark = (set) => marks.forEach(([el, name]) => el && el.classList.toggle(name, set));
  mark(true);
  addEventListener("afterprint", () => mark(false), { once: true });
  print();
}

export function startBowls() {
  each(".bowl", (section) => {
    const form = copyOf("again_parts");
    if (!form) return;
    const foot = section.querySelector("footer");
    foot.before(form);
    foot.append(copyOf("card_parts"));
    readers.set(section, new Again(section, form));
  });
  on("card", (button) => printCard(button.closest(".bowl")));
  on("print", () => print());
  on("copy", (button) => {
    const section = button.closest(".bowl");
    const say = (text) => {
      button.textContent = text;
      setTimeout(() => (button.textContent = "Copy the card"), 2500);
    };
    copyText(asText(section, readers.get(section).shown)).then(() => say("Copied"), () => say("Could not copy"));
  });
}

// Sections of head sheets, their bowls and their steps answer to each other. Without
// the script the legend says all of it.

import { all, each, renewed } from "./page.js";

const named = (name, within) => all("[data-section]", within).filter((e) => e.dataset.section === name);

// choose marks sections of one sheet and what goes on them; none where they are
// chosen already.
function choose(sheet, names) {
  const figures = all(".heads").filter((f) => f.dataset.sheet === sheet);
  const again = names.every((n) => figures.every((f) => named(n, f).every((e) => e.classList.contains("on"))));
  all(".on, .lit", document.querySelector("main")).forEach((e) => e.classList.remove("on", "lit"));
  all(".legend button").forEach((b) => b.setAttribute("aria-pressed", "false"));
  if (again) return;
  for (const figure of figures) {
    for (const element of names.flatMap((n) => named(n, figure))) {
      element.classList.add("on");
      all("button", element).forEach((b) => b.setAttribute("aria-pressed", "true"));
      all("[data-bowl]", element).forEach((a) => light(document.getElementById(a.dataset.bowl)));
    }
  }
}

function light(bowl) {
  if (!bowl) return;
  bowl.classList.add("lit");
  bowl.closest(".step").classList.add("lit");
}

// press sets a button beside the name of a section.
function press(row, sheet) {
  const button = document.createElement("button");
  button.type = "button";
  button.textContent = "Show";
  button.setAttribute("aria-label", "Show " + row.dataset.section);
  button.setAttribute("aria-pressed", "false");
  row.cells[0].append(button);
  button.addEventListener("click", () => choose(sheet, [row.dataset.section]));
}

// show lets a bowl point at its sections; it returns what it adds to the bowl.
function show(bowl, rows, figure) {
  const button = document.createElement("button");
  button.type = "button";
  button.textContent = "Show on the head";
  bowl.querySelector("footer").prepend(button);
  button.addEventListener("click", () => {
    choose(figure.dataset.sheet, []);
    choose(figure.dataset.sheet, rows.map((r) => r.dataset.section));
    figure.scrollIntoView({ block: "center" });
    rows[0].querySelector("button").focus({ preventScroll: true });
  });
  return button;
}

const rowsOf = (figure) => all(".legend tr[data-section]", figure);

// showAll lets every bowl point at its sections, on all figures.
function showAll() {
  const added = [];
  for (const figure of all(".heads")) {
    const bowls = new Set(all("[data-bowl]", figure).map((a) => a.dataset.bowl));
    for (const id of bowls) {
      const bowl = document.getElementById(id);
      if (bowl) added.push(show(bowl, rowsOf(figure).filter((r) => r.querySelector(`[data-bowl="${id}"]`)), figure));
    }
  }
  return added;
}

export function startSheets() {
  each(".heads", (figure) => {
    rowsOf(figure).forEach((row) => press(row, figure.dataset.sheet));
    all(".hd g[data-section]", figure).forEach((g) =>
      g.addEventListener("click", () => choose(figure.dataset.sheet, [g.dataset.section])));
  });
  let added = showAll();
  renewed(() => {
    added.forEach((button) => button.remove());
    added = showAll();
  });
}

// Which cards are due, on the home page and on the revise page.

import { place } from "./boxes.js";
import { all, renewed } from "./page.js";
import { onChange, progress } from "./progress.js";

const now = () => Date.now() / 1000;

// dueCards lists the cards that were answered and are due, the longest due first.
export function dueCards(reviews = progress().reviews, at = now()) {
  return Object.entries(reviews)
    .map(([card, list]) => [card, place(list).due])
    .filter(([, due]) => due <= at)
    .sort((a, b) => a[1] - b[1])
    .map(([card]) => card);
}

export const count = (n, thing) => `${n} ${thing}${n === 1 ? "" : "s"}`;

// startDue says on the home page how many cards are due, lesson by lesson.
export function startDue() {
  if (!document.querySelector(".due")) return;
  const draw = () => {
    const section = document.querySelector(".due");
    const due = dueCards(), begun = Object.keys(progress().reviews).length;
    section.querySelector("p").textContent = !begun
      ? "No card has been answered on this device yet."
      : due.length
        ? `${count(due.length, "card")} ${due.length === 1 ? "is" : "are"} due.`
        : "No card is due today.";
    const lessons = new Map();
    for (const card of due) {
      const lesson = /^(?:bowl:)?([^/:]+)\//.exec(card);
      const link = lesson && all("a[href]").find((a) => a.getAttribute("href") === `lessons/${lesson[1]}.html` && !a.classList.contains("button"));
      const title = link ? link.textContent : "Words and levels";
      lessons.set(title, (lessons.get(title) || 0) + 1);
    }
    section.querySelector("ul").replaceChildren(...[...lessons].map(([title, n]) => Object.assign(document.createElement("li"), { textContent: `${title}: ${n}` })));
  };
  draw();
  renewed(draw);
  onChange(draw);
  addEventListener("hashchange", draw);
}

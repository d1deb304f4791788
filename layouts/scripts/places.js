// Places on heads: a tap on a section chooses it in the list of the question, and what is
// chosen there is lit on the head. The list alone does for keys and for readers of the
// screen.

import { all, hear, renewed } from "./page.js";

const named = (input) => input.parentNode.textContent.replaceAll("\u00a0", " ").trim();

// light shows on the heads of a question what is chosen in its list.
function light(question) {
  const chosen = all(".pick :checked", question).map(named);
  all(".places [data-section]", question).forEach((g) => g.classList.toggle("on", chosen.includes(g.dataset.section)));
}

// lightAll does so for all questions, whose answers a script may have set.
export const lightAll = () => all(".question").filter((q) => q.querySelector(".places")).forEach(light);

export function startPlaces() {
  hear("click", (e) => {
    const section = e.target.closest(".places [data-section]");
    const input = section && all(".pick input", section.closest(".question")).find((i) => named(i) === section.dataset.section);
    if (input) input.click();
  });
  hear("change", lightAll);
  hear("reset", () => setTimeout(lightAll)); // when the list is empty again
  lightAll();
  renewed(lightAll);
}

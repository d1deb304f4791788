// Find: every word that is typed must begin a word of an entry. This script is on
// the find page alone and carries the index of the course with it, because a page
// from a folder may not read files.

const MOST = 40;

// fold makes É and e, Ü and u the same.
const fold = (text) => text.toLowerCase().normalize("NFD").replace(/[\u0300-\u036f]/g, "");

const words = (text) => fold(text).split(/[^\p{L}\p{N}./-]+/u).filter(Boolean);

// score is 0 where a word is missing; a hit in the title counts more than one in
// the text, a whole word more than a beginning.
function score(entry, query) {
  let sum = 0;
  for (const word of query) {
    const best = Math.max(hit(entry.titleWords, word) * 4, hit(entry.textWords, word));
    if (!best) return 0;
    sum += best;
  }
  return sum;
}

function hit(list, word) {
  let best = 0;
  for (const w of list) {
    if (w === word) return 2;
    if (w.startsWith(word)) best = 1;
  }
  return best;
}

export function search(entries, text) {
  const query = words(text);
  if (!query.length) return [];
  return entries
    .map((entry, i) => ({ entry, i, score: score(entry, query) }))
    .filter((r) => r.score)
    .sort((a, b) => b.score - a.score || a.i - b.i)
    .map((r) => r.entry);
}

export const prepare = (index) =>
  index.map(([title, path, where, text]) => ({ title, path, where, titleWords: words(title), textWords: words(where + " " + text) }));

function item(entry) {
  const li = document.createElement("li"), a = document.createElement("a"), where = document.createElement("span");
  a.href = entry.path;
  a.textContent = entry.title;
  where.className = "where";
  where.textContent = entry.where;
  li.append(a, where);
  return li;
}

// start is called by the last line of the script, which the build adds, with the
// index of the course.
export function start(index) {
  const field = document.getElementById("find_field");
  const entries = prepare(index);
  const list = document.querySelector(".found"), status = document.querySelector("[role=status]");
  const run = () => {
    const found = search(entries, field.value);
    list.replaceChildren(...found.slice(0, MOST).map(item));
    const asked = field.value.trim();
    status.textContent = asked && (found.length ? `${found.length} found` : `Nothing found for ${asked}`);
    status.classList.toggle("unseen", !asked);
    history.replaceState(null, "", asked ? "?q=" + encodeURIComponent(asked) : location.pathname);
  };
  field.addEventListener("input", run);
  field.form.addEventListener("submit", (e) => {
    e.preventDefault();
    run();
  });
  field.value = new URLSearchParams(location.search).get("q") || "";
  if (field.value) run();
  field.focus();
}

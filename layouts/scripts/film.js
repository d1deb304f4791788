// The film of a lesson, called in once the lesson is shown: own controls, and film, steps and lines of what is said move
// together. Without a film that plays, times stay links or become plain text.

import { all, copyOf, each, hear, on, renewed } from "./page.js";

const SKIP = 5; // seconds that an arrow key moves
const GLANCE = 0.1; // seconds into the film: before it plays, its first picture is seen and no black one

let video;
let player;
let steps; // of the page, those with a time: {from, until, item, title}
let lines; // of what is said: {from, link}
let step; // the one in view, or undefined
let line;
let repeating = false;
let quiet; // ends what listens to the film and its keys

const clock = (s) => {
  const two = (n) => String(n).padStart(2, "0");
  const h = Math.floor(s / 3600), m = Math.floor(s / 60) % 60;
  return (h ? `${h}:${two(m)}` : m) + ":" + two(Math.floor(s) % 60);
};

// lastBefore is the last of a list that has begun at a time.
const lastBefore = (list, t) => list.filter((x) => x.from <= t + 0.01).pop();

function stepAt(t) {
  const found = lastBefore(steps, t);
  return found && t < found.until ? found : undefined;
}

function seek(t) {
  video.currentTime = Math.max(0, Math.min(t, video.duration || t));
  if (repeating) step = stepAt(t) || step;
  follow();
}

const play = () => video.play().catch(() => {}); // refused, or stopped again at once

// go moves the film to where a link says and plays on from there.
function go(link) {
  seek(Number(link.dataset.at));
  play();
  const box = player.getBoundingClientRect();
  if (box.bottom < 40 || box.top > innerHeight - 40) player.scrollIntoView({ block: "nearest" });
}

// beside is the step before or after the one that the film is in.
function beside(way) {
  const t = video.currentTime;
  const i = steps.indexOf(lastBefore(steps, t));
  if (way > 0) return steps[i + 1];
  return i > 0 && t - steps[i].from < 2 ? steps[i - 1] : steps[Math.max(i, 0)];
}

function jump(way) {
  const goal = beside(way);
  if (goal) seek(goal.from);
}

function press(name, on) {
  const button = player.querySelector(`[data-film=${name}]`);
  if (button) button.setAttribute("aria-pressed", on);
}

const acts = {
  play: () => (video.paused ? play() : video.pause()),
  before: () => jump(-1),
  after: () => jump(1),
  repeat() {
    repeating = !repeating;
    press("repeat", repeating);
  },
  captions() {
    const track = video.textTracks[0];
    if (!track) return;
    track.mode = track.mode === "showing" ? "hidden" : "showing";
    press("captions", track.mode === "showing");
  },
  mute() {
    video.muted = !video.muted;
    press("mute", video.muted);
  },
  wide() {
    if (document.fullscreenElement) document.exitFullscreen();
    else if (player.requestFullscreen) player.requestFullscreen().catch(() => {});
  },
};

const keys = { " ": "play", k: "play", n: "after", p: "before", r: "repeat", c: "captions", m: "mute", f: "wide" };

function key(event) {
  if (event.altKey || event.ctrlKey || event.metaKey || event.target.closest("select")) return;
  const arrow = { ArrowLeft: -SKIP, ArrowRight: SKIP }[event.key];
  if (arrow) seek(video.currentTime + arrow);
  else {
    const name = keys[event.key.toLowerCase()];
    // A button has the space bar for itself.
    if (!name || event.key === " " && event.target.closest("button")) return;
    acts[name]();
  }
  event.preventDefault();
}

// follow shows where the film is: on the rail, in the steps and in what is said.
function follow() {
  const t = video.currentTime;
  if (repeating && step && t >= step.until - 0.05) return seek(step.from);
  const now = stepAt(t);
  if (!repeating || !step) step = now;
  for (const s of steps) {
    s.item.classList.toggle("now", s === now);
    if (s.mark) s.mark.classList.toggle("now", s === now);
  }
  const rail = player.querySelector("[type=range]");
  rail.value = t;
  player.querySelector(".here span").textContent = clock(t);
  player.querySelector(".here b").textContent = now ? now.title : "";
  rail.setAttribute("aria-valuetext", clock(t) + (now ? ", " + now.title : ""));
  say(lastBefore(lines, t));
}

// say marks the line that is said, and brings it into view unless the reader is
// busy in the list.
function say(now) {
  if (now === line) return;
  if (line) line.link.removeAttribute("aria-current");
  line = now;
  if (!line) return;
  line.link.setAttribute("aria-current", "true");
  const list = line.link.closest("ol");
  if (!list.matches(":hover, :focus-within")) list.scrollTop = line.link.offsetTop - list.clientHeight / 3;
}

// gone says that there is no film to play. Links to moments of it would lead nowhere.
function gone() {
  quiet.abort(); // a film that is taken out stops, and would say so
  player.querySelector("video").remove();
  player.querySelector(".keys").remove();
  player.querySelector(".gone").hidden = false;
  unlink();
  video = undefined;
}

const unlink = () => all("a[data-at]").forEach((a) => a.removeAttribute("href"));

// ready gives the rail the film's own length, and goes to the time that the address of
// the page names.
function ready(rail) {
  if (isFinite(video.duration)) rail.max = video.duration;
  if (video.currentTime) return;
  const t = Number(new URLSearchParams(location.search).get("t"));
  if (t > 0) seek(t);
  else video.currentTime = GLANCE;
}

// read finds what moves with the film: steps and what is said.
function read() {
  const marks = all(".film .rail rect");
  steps = all(".step > a.when").map((a, i) => ({
    from: Number(a.dataset.at), until: Number(a.dataset.until), item: a.parentElement, mark: marks[i],
    title: a.parentElement.querySelector("h2").textContent,
  }));
  lines = all(".film .lines a").map((link) => ({ from: Number(link.dataset.at), link }));
}

function start(within) {
  player = within;
  video = player.querySelector("video");
  video.controls = false;
  player.querySelector(".keys").hidden = false;
  video.tabIndex = 0;
  const rail = player.querySelector("[type=range]");
  const button = player.querySelector("[data-film=play]");
  const state = () => { button.textContent = video.paused ? "Play" : "Pause"; };
  if (quiet) quiet.abort();
  quiet = new AbortController();
  const listen = (event, run) => video.addEventListener(event, run, quiet);
  // The film may have been quicker than this script.
  if (video.readyState > 0) ready(rail);
  listen("loadedmetadata", () => ready(rail));
  listen("timeupdate", follow);
  listen("play", state);
  listen("pause", state);
  listen("error", gone);
  listen("click", acts.play);
  rail.addEventListener("input", () => seek(Number(rail.value)), quiet);
  player.addEventListener("keydown", key, quiet);
  player.addEventListener("click", (event) => {
    const pressed = event.target.closest("[data-film]");
    if (pressed) acts[pressed.dataset.film]();
  }, quiet);
  player.querySelector("select").addEventListener("change", (event) => { video.playbackRate = Number(event.target.value); }, quiet);
  if (video.error) gone();
}

// find leaves of what is said the lines that hold all the words.
function find(field) {
  const words = field.value.toLowerCase().split(/\s+/).filter(Boolean);
  let n = 0;
  for (const { link } of lines) {
    const text = link.textContent.toLowerCase();
    const hit = words.every((w) => text.includes(w));
    link.parentElement.hidden = !hit;
    n += hit;
  }
  field.closest("p").querySelector("output").textContent = words.length ? `${n} of ${lines.length} lines` : "";
}

// take begins with the film that is on the page now, and with what goes with it.
function take() {
  read();
  const here = document.querySelector(".film .player");
  const film = here && here.querySelector("video");
  step = undefined;
  if (film && film !== video) start(here);
  else if (video) follow();
  else if (here) unlink();
}

function startFilm() {
  document.head.append(Object.assign(document.createElement("link"), { rel: "stylesheet", href: document.querySelector(".film").dataset.look }));
  // What needs this script is shown once it is there, so that no press is lost.
  each(".film [data-do=film]", (button) => { button.hidden = false; });
  each(".film [type=search]", (field) => {
    field.addEventListener("input", () => find(field));
    field.closest(".find").hidden = false;
  });
  on("film", (button) => {
    const loaded = copyOf("film_player");
    button.closest(".ask").replaceWith(loaded);
    take();
    loaded.querySelector("[data-film=play]").focus();
  });
  on("steps", () => video && video.pause());
  hear("click", (event) => {
    const link = event.target.closest("a[data-at]");
    if (!link || !video || event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    go(link);
  });
  take();
  renewed(take);
}

startFilm();

// Timers that keep true time. What is stored is the instant a timer ends, so sleep,
// a closed page or a slow device cannot make it late: the time left is worked out
// anew whenever it is shown.

import { all, copyOf, on, renewed, root } from "./page.js";
import { changed, load, save } from "./store.js";

const MINUTE = 60000;
const RING_FOR = 2 * MINUTE;
const FORGET_AFTER = 6 * 60 * MINUTE;

let timers = [];
let dock;
let sound;
let title = document.title; // without what is said of timers

const left = (t) => (t.held === undefined ? t.end - Date.now() : t.held);

// clock prints the time left, rounded up to whole seconds: 0:00 comes at the end
// and not a second early.
export function clock(ms) {
  const s = Math.ceil(Math.abs(ms) / 1000);
  const h = Math.floor(s / 3600), m = Math.floor(s / 60) % 60;
  const two = (n) => String(n).padStart(2, "0");
  return (h ? `${h}:${two(m)}` : String(m)) + ":" + two(s % 60);
}

function keep() {
  save("timers", timers);
  draw();
}

function start(button) {
  wake();
  const bowl = button.closest(".bowl");
  timers.push({
    id: String(Date.now()),
    name: bowl ? bowl.querySelector("h3").textContent : document.querySelector("h1").textContent,
    zero: button.dataset.zero,
    end: Date.now() + Number(button.dataset.seconds) * 1000,
  });
  keep();
}

// touched tells whether the reader has pressed anything yet: before that a browser
// allows neither sound nor vibration.
const touched = () => !navigator.userActivation || navigator.userActivation.hasBeenActive;

// wake makes sound possible, at a press.
function wake() {
  if (!touched()) return;
  try {
    sound = sound || new AudioContext();
    sound.resume();
  } catch {
    // No sound here: the timer still shows its end.
  }
}

function beep() {
  if (!sound || sound.state !== "running") return;
  for (const at of [0, 0.22, 0.44]) {
    const tone = sound.createOscillator(), volume = sound.createGain();
    const from = sound.currentTime + at;
    tone.frequency.value = 880;
    volume.gain.setValueAtTime(0.0001, from);
    volume.gain.exponentialRampToValueAtTime(0.35, from + 0.02);
    volume.gain.exponentialRampToValueAtTime(0.0001, from + 0.18);
    tone.connect(volume).connect(sound.destination);
    tone.start(from);
    tone.stop(from + 0.2);
  }
}

function ring() {
  beep();
  if (navigator.vibrate && touched()) navigator.vibrate([300, 120, 300]);
}

// One line of the dock; its buttons act on the timer of its id.
function line(t) {
  const li = copyOf("timer_parts");
  li.dataset.timer = t.id;
  li.querySelector(".of b").textContent = t.name;
  for (const name of ["hold", "minute", "end"]) {
    li.querySelector("." + name).addEventListener("click", (e) => press[name](find(t.id), e.currentTarget));
  }
  return li;
}

const find = (id) => timers.find((t) => t.id === id);

const press = {
  hold(t) {
    wake();
    if (t.held === undefined) t.held = left(t);
    else {
      t.end = Date.now() + t.held;
      delete t.held;
    }
    keep();
  },
  minute(t) {
    wake();
    if (t.held === undefined) t.end = Math.max(t.end, Date.now()) + MINUTE;
    else t.held = Math.max(t.held, 0) + MINUTE;
    keep();
  },
  // A running timer asks once, since wet fingers press by mistake.
  end(t, button) {
    if (left(t) > 0 && !button.dataset.sure) {
      button.dataset.sure = "yes";
      button.textContent = "Really stop?";
      setTimeout(() => {
        delete button.dataset.sure;
        button.textContent = "Stop";
      }, 4000);
      return;
    }
    timers = timers.filter((x) => x.id !== t.id);
    keep();
  },
};

function build() {
  if (dock) return;
  dock = copyOf("dock_parts");
  document.body.append(dock);
}

function draw() {
  if (timers.length) build();
  if (!dock) return;
  dock.hidden = timers.length === 0;
  const list = dock.querySelector("ul");
  all("li", list).forEach((li) => find(li.dataset.timer) || li.remove());
  for (const t of timers) {
    const li = list.querySelector(`[data-timer="${t.id}"]`) || list.appendChild(line(t));
    update(li, t);
  }
  retitle();
  root.style.setProperty("--dock", dock.hidden ? "0px" : dock.offsetHeight + "px");
}

function update(li, t) {
  const ms = left(t), over = ms <= 0;
  li.querySelector(".left").textContent = (over ? "+" : "") + clock(over ? -ms - 999 : ms);
  li.querySelector(".of span").textContent = over ? "Time is up: look at the hair" : (t.held === undefined ? "counts " : "paused; counts ") + t.zero;
  li.querySelector(".hold").textContent = t.held === undefined ? "Pause" : "Go on";
  li.querySelector(".hold").hidden = over;
  if (over && !li.classList.contains("over")) announce(`${t.name}: time is up`);
  li.classList.toggle("over", over);
  li.classList.toggle("ringing", over && -ms < RING_FOR);
}

function announce(text) {
  const status = dock.querySelector("[role=alert]") || dock.appendChild(Object.assign(document.createElement("p"), { className: "unseen" }));
  status.setAttribute("role", "alert");
  status.textContent = text;
}

function retitle() {
  const next = timers.slice().sort((a, b) => left(a) - left(b))[0];
  if (!next) document.title = title;
  else document.title = (left(next) <= 0 ? `Time is up: ${next.name}` : `${clock(left(next))} ${next.name}`) + " · " + title;
}

function tick() {
  if (!timers.length) return;
  draw();
  if (timers.some((t) => left(t) <= 0 && -left(t) < RING_FOR)) ring();
}

function reload() {
  timers = load("timers", timers).filter((t) => left(t) > -FORGET_AFTER);
  draw();
}

export function startTimers() {
  on("timer", start);
  renewed(() => {
    title = document.title;
    draw();
  });
  changed("timers", reload);
  setInterval(tick, 1000);
  document.addEventListener("visibilitychange", tick);
  addEventListener("pageshow", reload);
  addEventListener("pointerdown", () => timers.length && wake());
  reload();
}

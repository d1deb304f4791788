// The one script of a course. It runs on pages opened from a folder: no modules, no
// requests. Whatever needs it is hidden until the class it sets is there.

import { startBowls } from "./bowl.js";
import { root } from "./page.js";
import { startSteps } from "./steps.js";
import { startTimers } from "./timers.js";

root.classList.add("live");

document.addEventListener("DOMContentLoaded", () => {
  startBowls();
  startTimers();
  startSteps();
});

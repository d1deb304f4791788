// The one script of a lesson with a film.

import { startBowls } from "./bowl.js";
import { startFilm } from "./film.js";
import { callIn, startPage } from "./page.js";
import { startSteps } from "./steps.js";
import { startTimers } from "./timers.js";

startPage(() => {
  startBowls();
  startTimers();
  startSteps();
  startFilm();
  callIn("asking");
});

// The one script of a lesson.

import { startBowls } from "./bowl.js";
import { callIn, startPage } from "./page.js";
import { startSteps } from "./steps.js";
import { startTimers } from "./timers.js";

startPage(() => {
  startBowls();
  startTimers();
  startSteps();
  callIn("asking");
  callIn("film");
});

// The one script of a lesson.

import { callIn, startPage } from "./page.js";
import { startSteps } from "./steps.js";
import { startTimers } from "./timers.js";

startPage(() => {
  startTimers();
  startSteps();
  callIn("work");
  callIn("asking");
  callIn("film");
}, true);

// The one script of pages that have none of their own: timers that were started on a
// lesson go on wherever the reader turns to, and the home page says what is due.

import { startDue } from "./due.js";
import { startPage } from "./page.js";
import { startProgress } from "./progress.js";
import { startTimers } from "./timers.js";

startPage(() => {
  startProgress();
  startTimers();
  startDue();
}, true);

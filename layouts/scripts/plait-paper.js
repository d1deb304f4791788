// The script of a paper. It draws, keeps and saves; it knows no answer.

import { startPage } from "./page.js";
import { startPaper } from "./paper.js";
import { startProgress } from "./progress.js";
import { startTimers } from "./timers.js";

startPage(() => {
  startProgress();
  startTimers();
  startPaper();
});

// The one script of pages that have none of their own: timers that were started on a
// lesson go on wherever the reader turns to.

import { startPage } from "./page.js";
import { startTimers } from "./timers.js";

startPage(startTimers);

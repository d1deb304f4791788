// Questions and practicals of a lesson. The lesson calls this script in when it is shown;
// the build adds a last line that starts it with what every question is judged by.

import { startProgress } from "./progress.js";
import { startQuestions } from "./question.js";

export function start(data) {
  startProgress();
  startQuestions(data);
}

// What answers to a reader's hands on a lesson: bowls that are weighed again, sections of
// the head that show their bowls. A page calls this script in when it is shown; reading
// needs none of it.

import { startBowls } from "./bowl.js";
import { startSheets } from "./sheet.js";

startBowls();
startSheets();

// Everything here is an enhancement: each page works without it. The theme is set at once, before the first paint;
// the rest waits for the page.

import { handleActs } from "./act";
import { handleKeys } from "./keys";
import { handleLive } from "./live";
import { handleOffline } from "./offline";
import { handlePad } from "./pad";
import { handlePanel } from "./panel";
import { handleTalk } from "./talk";
import { applyTheme, handleTheme } from "./theme";
import { handleWeeks } from "./weeks";

applyTheme();

document.addEventListener("DOMContentLoaded", () => {
  handleTheme();
  handleActs();
  handlePanel();
  handlePad();
  handleWeeks();
  handleKeys();
  handleLive();
  handleOffline();
  handleTalk();
});

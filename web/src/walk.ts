// The walk on the phone. The page from the server works as it is; this takes its place with what the phone knows, and
// goes on without a signal: what is noted is kept on the phone first, shown at once, and sent when it can be.

import { begin } from "./walk/begin";

const root = document.querySelector<HTMLElement>("[data-walk]");
if (root && "indexedDB" in window) void begin(root);

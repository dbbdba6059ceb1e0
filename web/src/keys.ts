// Single keys, and the list of them behind `?`. They can be switched off (WCAG 2.1.4), and never act while someone
// types in a field.

import { recall, remember } from "./store";
import { showToday } from "./weeks";

const listed: [string, string][] = [
  ["1 to 9", "the pages, in the order of the bar"],
  ["t", "Weeks: bring today into view"],
  ["← →", "Weeks: the bar before or after in the same place"],
  ["↑ ↓", "Weeks: the nearest bar in the place above or below"],
  ["Home End", "Weeks: the first or last bar of a place"],
  ["Enter", "Weeks: the reasons of a bar"],
  ["j k", "Walks: the next thing that was said, and the one before"],
  ["a m r", "Walks: accept it, mend it, refuse it"],
  ["Esc", "close what is open"],
  ["?", "this list"],
];

export function handleKeys(): void {
  const button = document.querySelector<HTMLButtonElement>("[data-keys-button]");
  if (button) {
    button.hidden = false;
    button.addEventListener("click", showKeys);
  }
  document.addEventListener("keydown", (event) => {
    if (recall("keys") === "off" || event.metaKey || event.ctrlKey || event.altKey || typing(event.target)) return;
    if (press(event.key)) event.preventDefault();
  });
}

function press(key: string): boolean {
  if (key === "?") showKeys();
  else if (key === "t" && document.querySelector("[data-weeks]")) showToday();
  else if (/^[1-9]$/.test(key)) return visit(Number(key));
  else return false;
  return true;
}

function visit(place: number): boolean {
  const shown = [...document.querySelectorAll<HTMLAnchorElement>(".bar a")].filter((link) => link.getClientRects().length > 0);
  const link = shown[place - 1];
  link?.click();
  return !!link;
}

export function typing(target: EventTarget | null): boolean {
  return target instanceof Element && !!target.closest("input, select, textarea, dialog, [contenteditable]");
}

function showKeys(): void {
  const dialog = document.querySelector<HTMLDialogElement>("dialog.keys-list") ?? makeList();
  if (!dialog.open) dialog.showModal();
}

function makeList(): HTMLDialogElement {
  const dialog = document.createElement("dialog");
  dialog.className = "keys-list";
  dialog.setAttribute("aria-label", "Keys");
  dialog.innerHTML = `<h2>Keys</h2><dl>${listed
    .map(([key, does]) => `<dt><kbd>${key}</kbd></dt><dd>${does}</dd>`)
    .join("")}</dl><label><input type="checkbox"> Single keys on this device</label>
    <form method="dialog"><button class="can">Close</button></form>`;
  const box = dialog.querySelector("input");
  if (box) {
    box.checked = recall("keys") !== "off";
    box.addEventListener("change", () => remember("keys", box.checked ? "on" : "off"));
  }
  document.body.append(dialog);
  return dialog;
}

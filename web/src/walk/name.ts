// Who writes: asked once on a phone that nobody has named yet.

import { el } from "./el";

export function askName(): Promise<string | undefined> {
  return new Promise((done) => {
    const field = el("input", { id: "walk-who", name: "who", maxlength: 60, required: true, autocomplete: "name" });
    const form = el(
      "form",
      { class: "form", method: "dialog" },
      el("div", { class: "field" }, el("label", { for: "walk-who" }, "Your name"), field, el("p", { class: "hint" }, "Every note says who wrote it. This phone remembers the name.")),
      el("p", { class: "form-do" }, el("button", { class: "do", value: "me" }, "That is me"), el("button", { class: "quiet", value: "", formnovalidate: true }, "Not now")),
    );
    const dialog = el("dialog", { class: "sheet", "aria-label": "Who is writing?" }, el("h2", {}, "Who is writing?"), form);
    dialog.addEventListener("close", () => {
      const name = field.value.replace(/\s+/g, " ").trim();
      dialog.remove();
      done(dialog.returnValue === "me" && name ? name : undefined);
    });
    document.body.append(dialog);
    dialog.showModal();
    field.focus();
  });
}

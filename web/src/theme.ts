// Light, dark, or as the device asks. The style sheet does the work; this sets `data-theme` on <html>.

import { say } from "./say";
import { recall, remember } from "./store";

const themes = ["auto", "light", "dark"] as const;
type Theme = (typeof themes)[number];

const words: Record<Theme, string> = {
  auto: "Light or dark: as set",
  light: "Light or dark: light",
  dark: "Light or dark: dark",
};

function chosen(): Theme {
  return themes.find((theme) => theme === recall("theme")) ?? "auto";
}

export function applyTheme(theme: Theme = chosen()): void {
  if (theme === "auto") {
    delete document.documentElement.dataset["theme"];
  } else {
    document.documentElement.dataset["theme"] = theme;
  }
}

export function handleTheme(): void {
  const button = document.querySelector<HTMLButtonElement>("[data-theme-button]");
  if (!button) return;
  let theme = chosen();
  button.hidden = false;
  button.textContent = words[theme];
  button.addEventListener("click", () => {
    theme = themes[(themes.indexOf(theme) + 1) % themes.length] ?? "auto";
    remember("theme", theme);
    applyTheme(theme);
    button.textContent = words[theme];
    say(words[theme]);
  });
}

/* Light, dark, or whatever the device says. Remembered on this device only. */
export type Theme = "device" | "light" | "dark";

const KEY = "cupwright.theme";

function remembered(): Theme {
  const kept = localStorage.getItem(KEY);
  return kept === "light" || kept === "dark" ? kept : "device";
}

class ThemeChoice {
  now = $state<Theme>(remembered());

  choose(theme: Theme): void {
    this.now = theme;
    localStorage.setItem(KEY, theme);
    applyTheme(theme);
  }
}

export function applyTheme(theme: Theme): void {
  if (theme === "device") delete document.documentElement.dataset["theme"];
  else document.documentElement.dataset["theme"] = theme;
}

export const themeChoice = new ThemeChoice();

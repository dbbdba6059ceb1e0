// What this device remembers for its reader. A browser may refuse (private window, full disk): then nothing is
// remembered and the page goes on.

export function recall(name: string): string | null {
  try {
    return localStorage.getItem(`grounds-${name}`);
  } catch {
    return null;
  }
}

export function remember(name: string, value: string): void {
  try {
    localStorage.setItem(`grounds-${name}`, value);
  } catch {
    // Not remembered; the choice holds for this page only.
  }
}

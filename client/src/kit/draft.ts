/* What is typed and not yet saved, kept on this device so that a closed tab loses nothing. */

const PREFIX = "cupwright.draft.";

export function keepDraft(name: string, value: unknown): void {
  try {
    localStorage.setItem(PREFIX + name, JSON.stringify(value));
  } catch {
    // Full or forbidden: typing goes on; only the safety net is missing.
  }
}

/** The draft of that name, or null; one that cannot be read is as good as none. */
export function draftOf<Value>(name: string): Value | null {
  try {
    return JSON.parse(localStorage.getItem(PREFIX + name) ?? "null") as Value | null;
  } catch {
    return null;
  }
}

export function dropDraft(name: string): void {
  localStorage.removeItem(PREFIX + name);
}

/* What the notebook needs of the world around it; a test brings its own. */
import type { Fetch } from "./seat_server";
import type { Schedule } from "./sync";

export interface Surroundings {
  fetch: Fetch;
  now: () => number;
  random: () => number;
  schedule: Schedule;
  /** Whether somebody can see the page. */
  visible: () => boolean;
  /** Calls when the network or the user comes back; the answer takes the wish back. */
  whenBack: (call: () => void) => () => void;
  /** Asks the browser not to clear the notes by itself; null if it cannot be asked, as on plain http. */
  persist: () => Promise<boolean | null>;
}

export const browser: Surroundings = {
  fetch: (input, init) => fetch(input, init),
  now: () => Date.now(),
  random: () => Math.random(),
  schedule: (task, ms) => {
    const timer = setTimeout(task, ms);
    return () => clearTimeout(timer);
  },
  visible: () => document.visibilityState !== "hidden",
  whenBack: (call) => {
    const seen = () => {
      if (document.visibilityState !== "hidden") call();
    };
    window.addEventListener("online", call);
    document.addEventListener("visibilitychange", seen);
    return () => {
      window.removeEventListener("online", call);
      document.removeEventListener("visibilitychange", seen);
    };
  },
  persist: async () => {
    // The type promises it; on plain http it is not there.
    const storage = navigator.storage as StorageManager | undefined;
    return typeof storage?.persist === "function" ? storage.persist() : null;
  },
};

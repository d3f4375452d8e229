/* Getting a reader ready in a browser's idle time, so that whoever writes meanwhile is not held up. */
import type { Lexicon } from "./lexicon";
import { phraseTree } from "./phrases";

/** Runs a piece of work when nothing else is to be done; `left` tells how many milliseconds it may still take. */
export type Idle = (work: (left: () => number) => void) => void;

/* Where a browser does not tell when it is idle: a pause, then half a frame. */
const PAUSE_MS = 50;
const SLICE_MS = 8;
/* A step takes a slow phone a few milliseconds. */
const A_STEP_MS = 3;

export const whenIdle: Idle = (work) => {
  if (typeof requestIdleCallback === "function") {
    requestIdleCallback((deadline) => work(() => deadline.timeRemaining()));
    return;
  }
  setTimeout(() => {
    const end = performance.now() + SLICE_MS;
    work(() => end - performance.now());
  }, PAUSE_MS);
};

/** Compile a lexicon step by step; at least one a turn, since a busy phone is never idle for long. */
export async function compileWhenIdle(lexicon: Lexicon, idle: Idle = whenIdle): Promise<void> {
  for (const code of lexicon.languages.keys()) {
    const tree = phraseTree(lexicon, code);
    let more = true;
    while (more) {
      more = await turn(idle, (left) => {
        do more = tree.goOn();
        while (more && left() > A_STEP_MS);
        return more;
      });
    }
  }
}

/** The result of a piece of work, done when idle. */
export function turn<Result>(idle: Idle, work: (left: () => number) => Result): Promise<Result> {
  return new Promise((resolve, reject) => {
    idle((left) => {
      try {
        resolve(work(left));
      } catch (fault) {
        reject(fault instanceof Error ? fault : new Error(String(fault)));
      }
    });
  });
}

/* The words of the desk while others taste. */
import type { PassProgress } from "../wire/types";

export const tasteDeskWords = {
  lead: "Who has finished which pass. What they wrote stays closed until the key is open.",
  grid: "Passes finished by each taster",
  taster: "Taster",
  cell: (progress: PassProgress): string => `${progress.done} of ${progress.all}`,
  seen: (ago: string): string => `heard from ${ago}`,
  unseen: "not heard from",
  nobody: "Nobody sits at this table yet.",
  toPeople: "Let tasters in",
  open: "Open the key",
  openHint: "When all are done. After that nothing is written any more.",
  clock: "The clock",
  allDone: "Everybody has been round all cups in every pass.",
  someLeft: (names: string): string => `Still on their way: ${names}.`,
};

/* The words of the desk while others taste. */
import type { TakenIn } from "../wire/taken_in";
import type { PassProgress } from "../wire/types";
import { count } from "./count";

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
  paper: "Type in paper sheets",
  back: "Who has got how far",
  allDone: "Everybody has been round all cups in every pass.",
  file: {
    title: "Take in a phone's file",
    hint: "For a phone that does not reach this table: save its notes to a file there, bring it here. Twice does no harm.",
    hintLate: "For notes that a phone had not sent when the key was opened. They are kept and shown as late, but not counted.",
    choose: "Choose the file",
    came: ({ seat_name: name, kept, new: fresh }: TakenIn): string =>
      `${name}: ${count(kept, "note")} ${kept === 1 ? "is" : "are"} kept, ` +
      (fresh === 0 ? `and ${kept === 1 ? "was" : "were"} here already.` : `${fresh} of them ${fresh === 1 ? "is" : "are"} new.`),
    late: "The key was open already, so the new ones stand in the comparison as late and are left out of every count.",
    refused: (n: number): string => `${count(n, "note")} could not be taken`,
    note: (number: number): string => `Note ${number}:`,
  },
  someLeft: (names: string): string => `Not finished yet: ${names}.`,
};

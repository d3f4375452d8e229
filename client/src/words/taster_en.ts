/* Every word of the taster's screens. None of them names a taste, a smell or a colour. */
import type { CueKind } from "../wire/types";
import { count } from "./count";

const CUES: Record<CueKind, string> = { pour: "pour", break: "break", skim: "skim", taste: "first taste" };
const startingLarge = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

export const taster = {
  join: {
    title: "Take a seat",
    lead: "You will be asked one question at a time, over all cups. Write what comes; nothing has to be answered.",
    code: "Code of the table",
    codeHint: "Six letters and digits; they stand on the desk's screen.",
    name: "Your name",
    nameHint: "As the host wrote it, or a new one.",
    act: "Sit down",
    caution:
      "The water is scalding: let a spoonful cool. Spit where you can, since caffeine adds up. Tell the host of allergies before " +
      "you taste. Use your own spoon, and stay away when you are ill.",
    again: (name: string, table: string): string => `Back to your seat: ${name}, ${table}`,
    waiting: (n: number): string => `${count(n, "note")} of that seat unsent`,
    noCode: "Write the code of the table.",
    noName: "Write your name.",
  },

  seat: {
    looking: "Looking for your seat …",
    none: "Nobody sits here yet",
    noneLead: "Take a seat with the code of a table. If you had one, it opens again as soon as the table answers.",
    toJoin: "Take a seat",
    who: (name: string, table: string): string => `${name} · ${table}`,
    cups: "The cups, in your order",
    passes: "The passes of the sheet",
    pass: (title: string, done: number, all: number): string => `${title}, ${done} of ${all} answered`,
    cup: (place: string, answered: boolean): string => `Cup ${place}, ${answered ? "answered" : "not answered"}`,
    position: (place: string): string => `the cup at position ${place}`,
    code: (place: string): string => `cup ${place}`,
    next: "Next cup",
    nextPass: (title: string): string => `On to ${title}`,
    back: "Back",
    end: "The last cup",
    endLead: "Everything is kept. You can go back to any cup and change what you wrote until the key is opened.",
    opened: "The key is open",
    openedLead: "What you wrote now lies beside the others' words and the roaster's.",
    toReveal: "See the reveal",
    toDesk: "Desk",
    openAtDesk: "Turn the bowls over at the desk",
  },

  answer: {
    takeBack: "Take back",
    unset: "not set",
    line: (value: number, low: string, high: string): string => `${value} on the way from ${low} to ${high}`,
    lineUnset: (low: string, high: string): string => `not set; from ${low} to ${high}`,
    setMiddle: "Touch the line to set it",
    points: (low: number, high: number, step: number): string => `${low} to ${high}, in steps of ${step}`,
    badPoints: (low: number, high: number, step: number): string => `Give points from ${low} to ${high} in steps of ${step}.`,
    tick: (number: number): string => `Cup ${number}`,
    swatch: (row: number, rows: number, column: number, columns: number): string =>
      `lightness ${row} of ${rows}, hue ${column} of ${columns}`,
    grey: (step: number, steps: number): string => `without hue, lightness ${step} of ${steps} from dark`,
    picked: "Your colour",
    notPicked: "No colour picked",
  },

  clock: {
    label: "The table's clock",
    waiting: "The clock has not been started.",
    bowl: (place: string, number: number, single: boolean): string => (single ? place : `${place}, bowl ${number}`),
    next: (kind: CueKind, name: string, left: string): string => `${startingLarge(CUES[kind])} ${name} in ${left}`,
    now: (kind: CueKind, name: string): string => `Now: ${CUES[kind]} ${name}`,
    done: "All cups may be tasted",
  },

  kept: {
    all: "All notes are with the table",
    unsent: (n: number): string => `${count(n, "note")} unsent, kept on this phone`,
    refused: (n: number): string => `${count(n, "note")} refused by the table, kept on this phone`,
    save: "Save notes to a file",
    again: "Send again",
    open: "Keep this page open and do not reload it: without the table it opens again only by its address. The screen may go dark meanwhile; the clock goes on.",
    late: "The key was opened before these notes arrived, so they cannot be sent any more. They stay here: save them to a file, which the desk takes in and shows as late.",
    stranger: "The table no longer knows this seat. Your notes are kept here; take a seat again, or save them to a file.",
  },

  reveal: {
    title: "What stood where",
    looking: "Laying the words side by side …",
    hints: { shared: "you both have it", near: "close, not the same", missed: "only they have it", own: "only you have it" },
    waiting: "The key is not open yet",
    waitingLead: "This page shows each coffee as soon as the host has opened the key.",
    back: "Back to your notes",
    mine: "You wrote",
    nothing: "Nothing written",
    late: "Came after the key was opened; not compared:",
    others: "The others wrote",
    published: "On the bag",
    noPublished: "The roaster printed no notes.",
    noOthers: "Nobody else wrote about this coffee.",
    kind: "A word that is only yours is no mistake: notes differ, and so do bags.",
    sealHolds: "The key matches the seal that was made before the first sip; this phone has computed it again.",
    sealBroken: "The key does not match the seal.",
    sealBrokenLead: "Ask the host to compare the digest on the labels with the opened key before you trust this page.",
    fits: "Do your notes pick them out?",
    fitPublished: "By what the bags say",
    fitOthers: "By what the others wrote",
    at: (places: string): string => `stood at ${places}`,
  },
};

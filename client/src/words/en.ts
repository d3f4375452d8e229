/* Every word of the desk that a user reads. */
import type { CupView } from "../kit/cups";
import { dateText } from "../kit/days";
import type { Coffee, RefusedLine, TableLine } from "../wire/types";
import { analyseWords } from "./analyse_en";
import { coolingWords } from "./cooling_en";
import { count, DOT } from "./count";
import { planWords } from "./plan_en";
import { pourWords } from "./pour_en";
import { protocolWords } from "./protocol_en";
import { reportWords } from "./report_en";
import { revealWords } from "./reveal_en";
import { sizeWords } from "./size_en";
import { tasteDeskWords } from "./taste_desk_en";
import { waterWords } from "./water_en";
import { wordsRoomWords } from "./words_room_en";

export const en = {
  app: {
    name: "Cupwright",
    skip: "Skip to the content",
    navigation: "Rooms",
    tables: "Tables",
    table: "Table",
    coffees: "Coffees",
    words: "Words",
    unknown: "There is nothing at this address",
    unknownTodo: "The link may be cut off. All tables are on the first page.",
    home: "To the tables",
  },

  theme: { legend: "Light or dark", device: "As the device", light: "Light", dark: "Dark" },

  wire: {
    stale: "A newer version of this page is there.",
    reload: "Load it",
    waiting: "One moment…",
    unreachable: "The program does not answer.",
    unreachableTodo: "Look whether it still runs in the window where it was started, and whether the network is there.",
    oddAnswer: (status: number): string => `The server answered in a way this page does not know (${status}).`,
    mistake: "Something went wrong on this page.",
    mistakeTodo: "Load the page again; what you saved is kept.",
  },

  flow: {
    label: "The steps of this table",
    steps: { plan: "plan", pour: "pour", taste: "taste", reveal: "reveal", analyse: "analyse", report: "report" },
    standing: { done: "done", now: "the table stands here", open: "can be opened", ahead: "not yet" },
  },

  cup: {
    states: {
      empty: "empty",
      dry: "dry",
      poured: "steeping",
      breaking: "to break",
      skimmed: "to skim, then cool",
      ready: "ready to taste",
      tasted: "tasted",
    },
    spoken: (cup: CupView, single: boolean): string => {
      const name = single ? `Cup ${cup.place}` : `${cup.place}, bowl ${cup.number}`;
      return `${name}: ${cup.say ?? en.cup.states[cup.state]}${cup.now === true ? ", next" : ""}`;
    },
  },

  enter: {
    title: "The desk is locked",
    lead: "This machine listens on the network, so whoever runs the tables gives the desk's passphrase.",
    firstTitle: "Set the desk's passphrase",
    firstLead: "This machine listens on the network. Nobody can run its tables before a passphrase is set.",
    word: "One-time word",
    wordHint: "It stands in the window where Cupwright was started.",
    passphrase: "Passphrase",
    newPassphrase: "New passphrase",
    newHint: "8 characters or more. A few plain words are easy to type and hard to guess.",
    enter: "Enter",
    set: "Set it and enter",
    taster: "I am a taster",
    leave: "Lock the desk",
    isOpen: "The desk is open to this browser.",
  },

  tables: {
    title: "Tables",
    lead: "One table is one sitting: planned, poured, tasted blind, then opened.",
    plan: "Plan a table",
    shelf: "Put coffees on the shelf",
    atHand: "At hand",
    behind: "Opened",
    behindHint: "The key is open; nothing is written any more.",
    emptyTitle: "The first table",
    emptyLines: [
      "Put the coffees you will taste on the shelf, by hand or from a file.",
      "Plan a table with them: how many bowls, who tastes, who pours. Then seal it.",
      "Print the labels, start the clock, and let each taster sit down with a phone.",
    ],
    facts: (table: TableLine): string =>
      [
        count(table.samples, "coffee"),
        count(table.bowls, "bowl"),
        count(table.tasters, "taster"),
        { codes: "codes on the bowls", shuffle: "shuffled", open: "not blind" }[table.blinding],
      ].join(DOT),
    stands: {
      plan: "being planned",
      pour: "sealed, waiting for water",
      taste: "being tasted",
      reveal: "opened",
    },
    acts: { plan: "Go on planning", pour: "Pour", taste: "Follow the clock", report: "Read the report" },
  },

  coffees: {
    title: "Coffees",
    lead: "The shelf: one line a roasted lot. A table is planned from here.",
    add: "Add a coffee",
    addTitle: "A coffee for the shelf",
    changeTitle: "Change this coffee",
    change: "Change",
    remove: "Take off the shelf",
    cancel: "Leave it",
    save: "Save",
    saved: (name: string): string => `${name} is on the shelf.`,
    removed: (name: string): string => `${name} is off the shelf.`,
    name: "Name",
    roaster: "Roaster",
    origin: "Origin",
    process: "Process",
    variety: "Variety",
    roastDate: "Roast date",
    publishedNotes: "The roaster's words",
    publishedHint: "As printed on the bag. Shown only after the key is open.",
    gramsLeft: "On the shelf",
    search: "Find",
    noneFound: "No coffee on the shelf has these words.",
    onShelf: (total: number): string => count(total, "coffee"),
    emptyTitle: "The shelf is empty",
    emptyLines: [
      "Add each coffee by hand, as its bag describes it; only the name has to be there.",
      "Or take a whole list from a spreadsheet, below.",
      "Then plan a table with them.",
    ],
    facts: (coffee: Coffee): string =>
      [
        coffee.roast_date === null ? "" : `roasted ${dateText(coffee.roast_date)}`,
        coffee.grams_left === null ? "" : `${coffee.grams_left}\u00a0g left`,
      ]
        .filter((part) => part !== "")
        .join(DOT),
    importTitle: "From a list",
    importHint: "A CSV or XLSX file, or lines pasted from a spreadsheet. All go on the shelf, or none.",
    importColumns:
      "Headings: name, roaster, origin, process, variety, roast_date, published_notes, grams_left. " +
      "Only name has to be there; a date is written 2026-11-25.",
    choose: "Choose a file",
    paste: "Or paste lines, the headings first",
    take: "Put on the shelf",
    added: (number: number): string => `${count(number, "coffee")} put on the shelf.`,
    unused: (headings: string[]): string => `Not kept, since a coffee has no such field: ${headings.join(", ")}.`,
    refused: (number: number): string =>
      `${count(number, "line")} cannot be taken, so nothing was put on the shelf. Mend the list and take it again.`,
    line: (refused: RefusedLine): string =>
      refused.column === "" ? `Line ${refused.line}:` : `Line ${refused.line}, ${refused.column}:`,
  },

  plan: planWords,
  protocol: protocolWords,
  size: sizeWords,
  cooling: coolingWords,
  pour: pourWords,
  water: waterWords,
  tasteDesk: tasteDeskWords,
  reveal: revealWords,
  analyse: analyseWords,
  report: reportWords,
  wordsRoom: wordsRoomWords,
};

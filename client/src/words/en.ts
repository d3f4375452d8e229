/* Every word of the desk that a user reads. */
import type { CupView } from "../kit/cups";

export const en = {
  app: {
    name: "Cupwright",
    skip: "Skip to the content",
    navigation: "Rooms",
    tables: "Tables",
    coffees: "Coffees",
    unknown: "There is nothing at this address",
    unknownTodo: "The link may be cut off. All tables are on the first page.",
    home: "To the tables",
  },

  theme: { legend: "Light or dark", device: "As the device", light: "Light", dark: "Dark" },

  wire: {
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
      poured: "poured",
      breaking: "to break",
      skimmed: "skimmed",
      ready: "ready to taste",
      tasted: "tasted",
    },
    spoken: (cup: CupView, single: boolean): string => {
      const name = single ? `Cup ${cup.place}` : `${cup.place}, bowl ${cup.number}`;
      return `${name}: ${cup.say ?? en.cup.states[cup.state]}${cup.now === true ? ", next" : ""}`;
    },
  },
};

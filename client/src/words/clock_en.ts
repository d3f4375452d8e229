/* The words of the run sheet: who does what, what is late, and how acts are called out. */
import type { Bowl, CueKind } from "../wire/types";
import { count } from "./count";
import { pourWords } from "./pour_en";

const DONE: Record<CueKind, string> = { pour: "Poured", break: "Broken", skim: "Skimmed", taste: "Tasted" };
const LATE: Record<CueKind, string> = { pour: "poured", break: "broken", skim: "skimmed", taste: "tasted" };

/** What each bowl is called: its place and, where places have several, its number. */
export function bowlNames(bowls: readonly Bowl[]): (bowl: number) => string {
  const single = bowls.every((bowl) => bowl.number === 1);
  return (index) => {
    const { place = "", number = 1 } = bowls[index] ?? {};
    return pourWords.bowlName(place, number, single);
  };
}

/** A name as it is spoken: a code digit by digit, since nobody at a table says "three hundred and ten". */
export const asSpoken = (name: string): string => name.replace(/^\d+/, (code) => [...code].join(" "));

export const clockWords = {
  person: (person: number): string => `Person ${person + 1}`,
  whose: "My hands",
  everybody: "All",
  hands: "Who does what",
  nothing: "Nothing more to do.",
  idle: (act: string, left: string): string => `${act} in ${left}`,
  mark: (kind: CueKind, name: string): string => `${DONE[kind]}: ${name}`,
  markHint:
    "Mark what you do as you do it: a pour when its water goes in, a break or skim when it is done. What is not marked " +
    "counts as done on time. To mark another bowl, tap it on the table.",

  lanes: "The run sheet",
  lanesLabel: (people: number, minutes: number): string =>
    `Run sheet of ${count(people, "person", "people")} over ${count(minutes, "minute")}; the same acts stand beside it as text`,
  flight: (number: number, of: number): string => `Flight ${number} of ${of}`,
  legend: { pour: "pour", break: "break", skim: "skim", taste: "first taste" } satisfies Record<CueKind, string>,
  minute: (minute: number): string => `${minute}:00`,
  keeps: (people: number): string => (people === 1 ? "One person can keep this." : `It takes ${people} people.`),

  late: (name: string, kind: CueKind, at: string, seconds: number, done: boolean): string =>
    `${name} ${done ? "was" : "will be"} ${LATE[kind]} at ${at}, ${seconds}\u00a0s late.`,
  lateTodo: (kind: CueKind, people: number, done: boolean): string =>
    done
      ? "Set it aside, or taste it knowing that."
      : `Let ${people === 1 ? "a second person" : "one more person"} ${kind}, or set it aside.`,
  aside: (name: string): string => `Set ${name} aside`,

  isAside: "Set aside: nothing more is asked of it.",
  unmark: { pour: "Not poured then", break: "Not broken yet", skim: "Not skimmed yet", aside: "Take it up again" },

  calls: "Call acts out on this device",
  howCalled: (spoken: boolean, felt: boolean): string =>
    spoken ? (felt ? "spoken and felt" : "spoken") : felt ? "felt" : "silent: only to be seen",
  speak: "Speak",
  vibrate: "Vibrate",
  hello: "Acts are called out.",
  saidTo: (who: string, act: string): string => `${who}: ${act}`,

  takeBack: "Take the start back",
  takeBackHint: "Started by mistake? Nothing is marked yet, so the start can be taken back.",
};

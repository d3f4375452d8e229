/* The words of the plan. */
import type { Recipe, Sheet } from "../wire/types";
import { count, DOT, water } from "./count";

const grams = (g: number, digits = 0): string => `${g.toFixed(digits)}\u00a0g`;

const told = (number: number | null): string => (number === null ? "?" : String(number));

export const planWords = {
  newTitle: "Plan a table",
  newLead: "Pick the coffees, say how they are poured and who tastes. Nothing is fixed before the seal.",
  untitled: "A table without a name",
  draftOver: "Draft",
  sealedLead: "Sealed: the plan can no longer change.",

  name: "Name of the table",
  nameHint: "As it will stand on labels and report.",
  missing: (missing: ("name" | "coffees")[]): string =>
    `Before it can be sealed the table needs ${missing.map((one) => ({ name: "a name", coffees: "at least one coffee" })[one]).join(" and ")}.`,

  coffees: "Coffees",
  coffeesHint: "Which stand on the table. Their order does not matter: codes are drawn at random.",
  picked: (number: number): string => (number === 0 ? "None picked yet" : `${count(number, "coffee")} picked`),
  noCoffees: "The shelf is empty.",
  toShelf: "Put coffees on the shelf",
  search: "Find",
  left: (grams_left: number): string => `${grams_left}\u00a0g left`,

  bowls: "Bowls",
  bowlsHint: "More bowls of a coffee show an uneven lot, and cost coffee.",
  bowlsPerSample: "Bowls of each coffee",
  bowlMl: "Water in a bowl",
  spare: "A spare bowl of each coffee",
  spareDetail: "Poured too, for a bowl that is knocked over or tastes off.",

  people: "Tasters",
  peopleHint: "Whoever comes later can still sit down; names here have a seat waiting.",
  tasters: "One name a line",

  blinding: "Blinding",
  blindingHint: "How the tasters are kept from knowing which cup is which.",
  blindings: {
    codes: {
      label: "Somebody else pours: codes on the bowls",
      detail:
        "A pourer who does not taste gets the list of which coffee belongs to which three-digit code and fills the " +
        "bowls by it. Tasters see the codes only.",
    },
    shuffle: {
      label: "I am alone: shuffle, codes under the bowls",
      detail:
        "You stick a code under every bowl, put in the ground coffee by the list, and shuffle the dry bowls until you " +
        "have lost track; then you pour. While tasting there are only places, 1 and up; at the end you turn each bowl " +
        "over and enter the code you find.",
    },
    open: {
      label: "Not blind",
      detail: "Everybody knows what stands where. For a table that only keeps notes.",
    },
  },

  sheet: "Sheet",
  sheetHint: "What each taster is asked, in which order.",
  passes: (sheet: Sheet): string => sheet.passes.map((part) => part.title).join(DOT),

  recipe: "Recipe",
  recipeHint: "The usual ratio is 55 g/L (8.25 g for 150 mL), poured at 92 to 94 °C.",
  ratio: "Ratio",
  kettle: "Kettle",
  rare: "Scale, grinder, repeatable layout",
  rareNow: (step: number | null, purge: number | null): string => `scale in steps of ${told(step)}\u00a0g, ${told(purge)}\u00a0g through the grinder`,
  twice: "The same coffee under a second code",
  twiceHint: "Nobody at the table knows. It shows who finds the same coffee again, and costs its bowls once more.",
  twiceNow: (coffees: number): string => (coffees === 0 ? "none" : `${count(coffees, "coffee")} stand twice`),
  spread: "Flights, and how many samples each taster gets",
  spreadNow: (flight: number | null, each: number | null): string =>
    `at most ${told(flight)} without a break, ${each === null || each === 0 ? "everybody gets all" : `${each} for each taster`}`,
  flight: "Most samples without a break",
  flightHint: "Six to eight is what senses are said to take; more are parted into flights.",
  samplesEach: "Samples each taster gets",
  samplesEachHint: "0: all of them. Fewer spares the palate; it takes more tasters to compare as well.",
  hands: "Hands: who pours, breaks and skims, and how fast",
  handsNow: (people: number | null, pour: number | null, crust: number | null, skim: number | null): string =>
    `${people === null ? "?" : count(people, "person", "people")}; ${told(pour)}, ${told(crust)} and ${told(skim)}\u00a0s a bowl`,
  pourers: "People who pour",
  pourersHint: "They pour, break and skim together.",
  pourS: "To pour a bowl",
  breakS: "To break its crust",
  skimS: "To skim it",
  secondsHint: "Measured by a watch, with the step to the next bowl.",
  place: "Kettle, vessel and room",
  placeNow: (kettle: number | null, altitude: number | null, room: number | null): string =>
    `kettle ${told(kettle)}\u00a0°C, ${told(altitude)}\u00a0m above the sea, room ${told(room)}\u00a0°C`,
  kettleHint: "Nothing pours hotter than water boils where the table stands.",
  altitude: "Above the sea",
  altitudeHint: "Water boils about 1\u00a0°C lower for every 300\u00a0m.",
  room: "Room",
  roomHint: "The air around the bowls: it decides how fast they cool.",
  vessel: "Vessel",
  vessels: { bowl: "Bowl", glass: "Glass", cup: "Cup or mug", "paper-cup": "Paper cup", insulated: "Double wall" },
  mouth: "First taste, and what is swallowed",
  mouthNow: (celsius: number | null, percent: number | null): string =>
    `from ${told(celsius)}\u00a0°C, ${told(percent)}\u00a0% swallowed`,
  tasteFrom: "Hottest cup anybody tastes",
  tasteFromHint: "Above 65\u00a0°C drinks count as very hot. Lower, and the table begins later.",
  swallowed: "Swallowed of each spoon",
  swallowedHint: "What is not spat out. It decides the caffeine.",
  ratioHint: "Grams of coffee for a litre of water.",
  bowlsPerHint: "1 to 10; at most 60 on a table.",
  bowlMlHint: "As poured, without the grounds.",
  scaleHint: "The smallest step it shows.",

  updating: "Updating…",
  older: "The picture is of the last plan that could be laid.",
  flightName: (number: number, of: number): string => (of > 6 ? String(number) : `Flight ${number}`),
  flightChoice: "Which flight",
  fairness: "What this does to fairness",
  oneMore: { bowl: "One bowl more of each sample", taster: "One taster more" } as Record<string, string>,
  runs: "The schedule",
  runsLate: "Working out who does what…",
  nobodyKeeps: "Nobody can keep this schedule, however many pour.",
  scaleStep: "Step of the scale",
  purge: "Through the grinder first",
  purgeHint: "Thrown away, so that no coffee tastes of the one before.",
  seed: "Seed",
  seedHint: "0 draws new codes and orders each time. The same number draws the same ones again.",

  preview: "The table",
  previewEmpty: "Pick coffees, and the table is laid here.",
  tooMany: "More bowls than a table holds.",
  perBowl: "in each bowl",
  total: "coffee in all",
  water: "water to heat",
  perCoffee: "of each coffee",
  dose: (recipe: Recipe, step: number): string => grams(recipe.dose_g, step < 0.1 ? 2 : step < 1 ? 1 : 0),
  totalOf: (recipe: Recipe): string => grams(recipe.total_coffee_g),
  waterOf: (recipe: Recipe): string => water(recipe.water_to_heat_ml),
  perCoffeeOf: (recipe: Recipe): string => grams(recipe.coffee_per_sample_g),

  save: "Save the draft",
  saved: "The draft is saved.",
  unsaved: "Not saved yet. It is kept on this device meanwhile.",
  seal: "Seal the table",
  sealTitle: "Seal this table?",
  sealBody:
    "Which coffee stands under which code is now drawn at random and locked away. From here on the plan cannot " +
    "change, tasters can sit down, and labels can be printed.",
  sealBack: "Not yet",
  discard: "Throw the draft away",
  remove: "Remove the table",
  removeTitle: "Remove this table?",
  removeDraft: "The draft is gone for good. Coffees stay on the shelf.",
  removeSealed: "Its notes and results go with it. Repeat its name to show that you mean it.",
  removeBack: "Keep it",
  removeName: "Name of the table",

  sealed: "The seal",
  sealMeaning:
    "A digest of the key: which coffee stands under which code. It gives nothing away, and it cannot be made to fit " +
    "another key. Note or photograph it now; when the key is opened anybody can compute it again and see that no " +
    "coffee changed its place.",
  sealOnPaper: "It is printed on the labels too.",
  digest: "Digest (SHA-256)",
  toPour: "To the kettle",

  facts: {
    coffees: "Coffees",
    bowls: "Bowls",
    tasters: "Tasters",
    blinding: "Blinding",
    sheet: "Sheet",
    water: "Water",
    flights: "Flights",
    hands: "Hands",
    place: "Kettle and room",
    mouth: "First taste",
  },
  bowlsFact: (bowls: number, ml: number): string => `${count(bowls, "bowl")} of ${ml}\u00a0mL`,
  waterFact: (ratio: number, kettle: number): string => `${ratio}\u00a0g/L at ${kettle}\u00a0°C`,
};

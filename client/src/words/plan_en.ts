/* The words of the plan. */
import type { Recipe, Sheet } from "../wire/types";
import { count, DOT, water } from "./count";

const grams = (g: number, digits = 0): string => `${g.toFixed(digits)}\u00a0g`;

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
  },
  bowlsFact: (bowls: number, ml: number): string => `${count(bowls, "bowl")} of ${ml}\u00a0mL`,
  waterFact: (ratio: number, kettle: number): string => `${ratio}\u00a0g/L at ${kettle}\u00a0°C`,
};

/* The words of the pour: brief, paper, seats and the run of the clock. */
import type { CoffeeNeed, CueKind, Recipe } from "../wire/types";
import { fahrenheit, fluidOunces, ounces } from "../pour/units";
import { count, water } from "./count";

const grams = (g: number, digits: number): string => `${g.toFixed(digits)}\u00a0g`;

export const pourWords = {
  lead: "What to have ready, in the order it is needed.",
  runLead: "The clock is the same on every screen.",
  closed: "The key of this table is open; its clock has run.",
  draft: "This table is still being planned. Seal it, and it can be poured.",
  toPlan: "To the plan",

  amounts: "Amounts",
  perBowl: "beans in each bowl",
  tolerance: (recipe: Recipe): string => `${recipe.low_g.toFixed(2)} to ${recipe.high_g.toFixed(2)}\u00a0g is within tolerance`,
  dose: (recipe: Recipe, step: number): string => grams(recipe.dose_g, step < 0.1 ? 2 : step < 1 ? 1 : 0),
  total: "coffee in all",
  totalOf: (recipe: Recipe): string => grams(recipe.total_coffee_g, 0),
  totalHint: (recipe: Recipe): string =>
    `${count(recipe.bowls, "bowl")}${recipe.spare_bowls > 0 ? `, ${recipe.spare_bowls} to spare` : ""}, ${recipe.purge_g}\u00a0g through the grinder for each coffee`,
  water: "water to heat",
  waterOf: (recipe: Recipe): string => water(recipe.water_to_heat_ml),
  waterHint: (recipe: Recipe): string => `${water(recipe.water_poured_ml)} for the bowls, the rest for kettle and spoons`,
  kettle: "kettle",
  kettleOf: ({ kettle_c, boiling }: Recipe): string =>
    boiling.reaches ? `${kettle_c}\u00a0°C` : `boiling, ${boiling.reached_c.toFixed(1)}\u00a0°C`,
  kettleHint: ({ kettle_c, boiling }: Recipe): string =>
    `${boiling.pour_low_c.toFixed(0)} to ${boiling.pour_high_c.toFixed(0)}\u00a0°C at the grounds; ` +
    `water boils at ${boiling.boils_c.toFixed(1)}\u00a0°C here` +
    `${boiling.reaches ? "" : `; ${kettle_c}\u00a0°C was wished`}. It scalds at once.`,
  ratio: "coffee to water",
  ratioOf: (recipe: Recipe): string => `${recipe.grams_per_litre.toFixed(1)}\u00a0g/L`,
  ratioHint: (recipe: Recipe): string =>
    `The scales leave ${recipe.ratio_low.toFixed(1)} to ${recipe.ratio_high.toFixed(1)}\u00a0g/L open. Pour by volume: ` +
    `${recipe.bowl_ml}\u00a0mL weigh ${recipe.bowl_water_g.toFixed(0)}\u00a0g when hot.`,
  imperial: "Ounces and Fahrenheit, too",
  inOunces: (g: number): string => `${ounces(g).toPrecision(3)}\u00a0oz`,
  inFluidOunces: (ml: number): string => `${fluidOunces(ml).toFixed(1)}\u00a0fl\u00a0oz`,
  inFahrenheit: (celsius: number): string => `${fahrenheit(celsius).toFixed(0)}\u00a0°F`,
  needs: "From the shelf",
  need: (need: CoffeeNeed): string => grams(need.grams, 0),
  left: (need: CoffeeNeed): string => (need.grams_left === null ? "" : `of ${need.grams_left}\u00a0g`),
  short: "not enough",

  paper: "On paper",
  paperHint: "Labels carry codes and the seal, never a coffee's name.",
  labels: "Labels (PDF)",
  labelsLetter: "Labels, US Letter",
  sheetA4: "Sheet to write on, A4",
  sheetLetter: "Sheet, US Letter",

  list: "The pour list",
  listHint: "Which coffee goes under which code.",
  listOpen: "Show the pour list",
  listTitle: "For the pourer only",
  listWarn: {
    codes:
      "Whoever reads this list knows the key and should not taste at this table. That it was looked at is written into " +
      "the table's record.",
    shuffle:
      "Put the ground coffee into the bowls by this list and close it. Then shuffle the dry bowls until you have lost " +
      "track; the water comes after that. That the list was looked at is written into the table's record.",
    open: "This table is not blind: the list is no secret.",
  },
  listShow: "I am the pourer: show it",
  listClose: "Close",
  listCode: "Code",
  listCoffee: "Coffee",
  listBowls: "Bowls",
  listA4: "The list on paper, A4",
  listLetter: "US Letter",

  people: "Tasters",
  peopleHint: "They scan the picture with a phone, or open the address and type the code.",
  peopleHere: "They sit down on this machine.",
  joinCode: "Table code",
  joinAt: "at",
  noPhones: "Phones cannot come in: Cupwright answers this machine alone.",
  noPhonesTodo:
    "Tasters can sit down here, below. To let phones in, stop Cupwright where it was started and start it again as " +
    "before, with this added; the table stays as it is:",
  here: "Sit here",
  hereLabel: (name: string): string => `Sit here as ${name}, on this machine`,
  free: "Free the seat",
  freeLabel: (name: string): string => `Free the seat of ${name} for somebody else`,
  taken: "seated",
  waiting: "not here yet",
  anotherName: "Another name",
  anotherHint: "Takes a seat on this machine.",

  work: "Order of work",
  start: "Start the clock",
  startHint: "With the first drop of water.",

  verb: { pour: "Pour", break: "Break", skim: "Skim", taste: "Taste" } satisfies Record<CueKind, string>,
  mind: {
    pour: "The water is scalding: pour slowly and close to the bowl, and let nobody lean over the table.",
    break: "The steam is hot: come near slowly. Only spoons that touch no mouth go into a bowl.",
    skim: "The bowls are still scalding. Rinse the spoons in hot water between them.",
    taste:
      "Above 60 °C coffee burns within seconds: let a spoonful cool. Carry it to a spoon or cup of your own, and spit: " +
      "swallowed caffeine adds up.",
  } satisfies Record<CueKind, string>,
  now: "Now",
  next: "Next",
  then: "Then",
  in: (left: string): string => `in ${left}`,
  bowlName: (place: string, number: number, single: boolean): string => (single ? place : `${place}, bowl ${number}`),
  allReady: "All bowls are ready.",
  allReadyHint: "Taste as they cool, and again when they are cold.",
  pouredAgain: "Poured just now",
  selected: {
    dry: (left: string): string => `Dry. Its pour is due in ${left}.`,
    poured: (ago: string, left: string): string => `Poured ${ago} ago. Break it in ${left}.`,
    breaking: (ago: string): string => `Poured ${ago} ago. Break it now.`,
    skimmed: (ago: string, left: string): string => `Poured ${ago} ago. Skim it; it can be tasted in ${left}.`,
    stands: (ago: string, left: string): string => `Poured ${ago} ago. It can be tasted in ${left}.`,
    ready: (ago: string): string => `Poured ${ago} ago. Ready to taste.`,
  },
  whoIsDone: "Who has finished",
  tableLabel: "The table, bowls in pouring order",
  briefAgain: "The brief again",
};

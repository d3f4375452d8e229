/* The words of the water. */
import type { WaterParameter, WaterPart, WaterReached } from "../wire/water";

const grams = (g: number, digits: number): string => `${g.toFixed(digits)}\u00a0g`;
const litres = (l: number, digits: number): string =>
  l >= 1 ? `${l.toFixed(digits)}\u00a0L` : `${(l * 1000).toFixed(digits - 3)}\u00a0mL`;

const short = (value: number): string => String(Number(value.toPrecision(3)));

export const waterWords = {
  title: "Water: what to mix",
  sources: "Waters at hand",
  sourcesHint: "From a label, a report or a drop test. What is left empty counts as not known.",
  sourceName: "Name",
  firstSource: "tap water",
  anotherSource: (number: number): string => `water ${number}`,
  addSource: "Add a water",
  removeSource: (name: string): string => `Leave out ${name}`,
  remove: "Leave out",
  more: "The rest of the analysis",
  unitOf: (label: string): string => `${label}: unit`,
  deionised: "Deionised water is at hand",
  deionisedDetail: "or distilled; water by reverse osmosis still holds something and goes above with its analysis",

  concentrates: "Mineral concentrates",
  concentratesHint: "Grams of each salt in one litre of deionised water. Food grade only; never drunk as it is.",
  concentrateName: (number: number): string => String.fromCharCode(64 + number),
  addConcentrate: "Add a concentrate",
  addSalt: "Add a salt",
  salt: "Salt",
  saltGrams: "In a litre",
  removeConcentrate: (name: string): string => `Leave out concentrate ${name}`,

  wanted: "What is wanted",
  wantedHint: "Published ranges disagree, and none is a law.",
  wantedLegend: "Mix into",
  ranges: {
    "2009": "the trade table of 2009",
    newer: "the newer trade chart",
  } as Record<string, string>,
  own: "a target of my own",
  litres: "How much",
  scaleStep: "The scale's step",
  ask: "What to mix",
  judge: "Only show where these waters lie",

  result: "The mix",
  ingredient: "Ingredient",
  exactly: "Exactly",
  toMeasure: "To measure out",
  exact: (part: WaterPart): string => (part.grams === null ? litres(part.litres, 4) : grams(part.grams, 2)),
  measured: (part: WaterPart): string =>
    part.measured_grams === null ? litres(part.measured_litres, 3) : `${part.measured_grams}\u00a0g`,
  concentrate: (name: string): string => `concentrate ${name}`,
  lies: (water: string, range: string): string => `${water}, against ${range}`,
  theMix: "The mix as measured out",
  ownTarget: "the target",
  reached: ({ label, units }: WaterParameter, one: WaterReached): string =>
    `${label}: ${short(one.measured)}\u00a0${units[0] ?? ""}, where ${short(one.aim)} is wanted.`,
  bandOurs: "A dashed band is our reading of “at or near”; the table prints none.",
};

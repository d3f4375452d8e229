/* A lexicon with the own words of an installation; as core/words/extending.py, which has refused what does not fit. */
import type { OwnWord } from "../../wire/types";
import { spellings } from "./forms";
import { ENGLISH, type Concept, type Lexicon } from "./lexicon";

/** The lexicon with own words. What does not fit is passed over, so that a phone always reads. */
export function extended(lexicon: Lexicon, own: readonly OwnWord[]): Lexicon {
  if (own.length === 0) return lexicon;
  const concepts = new Map(lexicon.concepts);
  const owners = ownersOf(lexicon);
  for (const word of parentsFirst(own, lexicon)) {
    if (word.label) takeConcept(word, concepts, owners, lexicon);
    else for (const form of word.forms) takeForm(word.concept, form, concepts, owners, lexicon);
  }
  return { ...lexicon, concepts };
}

type Owners = Map<string, string>;

/** Concepts before what hangs under them, then forms; what hangs under nothing known comes last. */
function parentsFirst(own: readonly OwnWord[], lexicon: Lexicon): OwnWord[] {
  let waiting = own.filter((word) => word.label);
  const ordered: OwnWord[] = [];
  const known = new Set(lexicon.concepts.keys());
  for (;;) {
    const ready = waiting.filter((word) => word.parents.every((parent) => known.has(parent)));
    if (ready.length === 0) break;
    ordered.push(...ready);
    for (const word of ready) known.add(word.concept);
    waiting = waiting.filter((word) => !ready.includes(word));
  }
  return [...ordered, ...own.filter((word) => !word.label)];
}

function ownersOf(lexicon: Lexicon): Owners {
  const english = lexicon.languages.get(ENGLISH)!;
  const owners: Owners = new Map();
  for (const concept of lexicon.concepts.values()) {
    for (const form of [...concept.forms, ...concept.slips]) {
      for (const spelling of spellings(form, english)) owners.set(spelling.join(" "), concept.id);
    }
  }
  return owners;
}

function takeConcept(own: OwnWord, concepts: Map<string, Concept>, owners: Owners, lexicon: Lexicon): void {
  const first = concepts.get(own.parents[0] ?? "");
  const written = [...new Set([own.label, ...own.forms])];
  if (!first || concepts.has(own.concept) || !owned(own.concept, written, owners, lexicon)) return;
  concepts.set(own.concept, {
    id: own.concept,
    label: own.label,
    family: first.family,
    parents: own.parents,
    forms: written,
    slips: [],
    shared: [],
    about: first.about,
    takes: first.takes,
    low: "",
    middle: "",
    high: "",
    denied: "",
    labels: {},
    written: {},
  });
}

function takeForm(
  concept: string,
  form: string,
  concepts: Map<string, Concept>,
  owners: Owners,
  lexicon: Lexicon,
): void {
  const before = concepts.get(concept);
  if (!before || !owned(concept, [form], owners, lexicon)) return;
  concepts.set(concept, { ...before, forms: [...before.forms, form] });
}

/** Give the forms to the concept, all or none. */
function owned(concept: string, forms: readonly string[], owners: Owners, lexicon: Lexicon): boolean {
  const english = lexicon.languages.get(ENGLISH)!;
  const wanted = forms.flatMap((form) => spellings(form, english));
  const small = wanted.some((spelling) => spelling.every((word) => english.small.has(word)));
  if (small || wanted.some((spelling) => owners.has(spelling.join(" ")))) return false;
  for (const spelling of wanted) owners.set(spelling.join(" "), concept);
  return true;
}

/* Every way to write a form of the lexicon; as core/words/forms.py does. */
import type { Language } from "./lexicon";
import { fold } from "./tokens";

/** Every way to write a form, each as folded words: without repetition, always in one order. */
export function spellings(form: string, language: Language): readonly string[][] {
  return form.includes("{") || form.includes("-") ? several(form, language) : shores(form.split(" ").map(fold), language);
}

function several(form: string, language: Language): readonly string[][] {
  const found = new Map<string, string[]>();
  for (const filled of filledIn(form, language)) {
    for (const way of everyWay(filled.split(" ").filter(Boolean), language)) {
      const key = way.join(" ");
      if (!found.has(key)) found.set(key, way);
    }
  }
  return [...found.values()];
}

/** The form with each group in braces replaced by each of its words. */
function filledIn(form: string, language: Language): string[] {
  const open = form.indexOf("{");
  if (open < 0) return [form];
  const close = form.indexOf("}", open);
  const head = form.slice(0, open);
  const ends = filledIn(form.slice(close + 1), language);
  const group = language.groups[form.slice(open + 1, close)] ?? [];
  return group.flatMap((word) => ends.map((end) => head + word + end));
}

function everyWay(parts: readonly string[], language: Language): string[][] {
  let ways: string[][] = [[]];
  for (const part of parts) {
    const here = waysOfPart(part, language);
    ways = ways.flatMap((way) => here.map((piece) => [...way, ...piece]));
  }
  return ways;
}

function waysOfPart(part: string, language: Language): string[][] {
  const pieces = part.split("-").map(fold);
  const ways = pieces.length === 1 ? [pieces] : [pieces, [pieces.join("")]];
  return ways.flatMap((way) => shores(way, language));
}

function shores(way: string[], language: Language): string[][] {
  const other = (word: string): string | undefined =>
    Object.hasOwn(language.spelling, word) ? language.spelling[word] : undefined;
  const ways = [way];
  if (way.some((word) => word.endsWith("n't"))) ways.push(way.map((word) => word.replace("n't", "nt"))); // didnt like
  if (way.some((word) => other(word) !== undefined)) ways.push(way.map((word) => other(word) ?? word));
  return ways;
}

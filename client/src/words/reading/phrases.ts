/* The forms of a lexicon as a tree of words, and the longest phrase that starts at a word; as core/words/phrases.py does. */
import { spellings } from "./forms";
import { ENGLISH, formsIn, type Endings, type Language, type Lexicon } from "./lexicon";
import { AMOUNT, NO_MARKS, type Marks } from "./marks";
import { EXACT, inflectedFrom, Mender, ONE_SLIP, type Candidate } from "./spelling";
import { JOINED, type Token } from "./tokens";

/* How sure a reading is when the form may stand for another concept, too. */
export const AMBIGUOUS = 0.6;
/* Families whose shared forms are meant only in a field of their own: orange the colour, where it was asked. */
const ONLY_WHERE_ASKED = ["colour"];
const CACHED_WORDS = 10_000;

interface Node {
  next: Map<string, Node>;
  concept: string;
  marks: Marks;
  certainty: number;
}

/** A phrase: words `first` up to but not including `after`. `concept` is "" if it only marks others. */
export interface Found {
  concept: string;
  marks: Marks;
  first: number;
  after: number;
  certainty: number;
  compares: string;
}

/** Compiled once for a lexicon, a language and a field. A language other than English stands upon English, `base`. */
export class PhraseIndex {
  readonly small: ReadonlySet<string>;
  private readonly root: Node = node();
  private readonly known = new Set<string>();
  private readonly mendable = new Set<string>();
  private readonly endings: Endings;
  private readonly base: PhraseIndex | undefined;
  private readonly fixed: ReadonlySet<string>;
  private readonly comparing: ReadonlyMap<string, string>;
  private readonly met = new Map<string, readonly Candidate[]>();
  private mender: Mender | undefined;

  constructor(lexicon: Lexicon, language: Language, field: string, base?: PhraseIndex) {
    this.endings = language.endings;
    this.base = base;
    this.plantLanguage(lexicon, language, field);
    this.small = new Set([...language.small, ...(base?.small ?? [])]);
    this.fixed = this.fixedWords(language);
    this.comparing = this.comparisons();
  }

  /** The phrase of most words from `first` on and before `before`; of equally long ones the most certain. */
  longest(words: readonly Token[], first: number, before = words.length): Found | undefined {
    let best: Found | undefined;
    let bestSure = 0;
    const openEnds: [Node, number, number, string][] = [[this.root, first, EXACT, ""]];
    for (let open = openEnds.pop(); open; open = openEnds.pop()) {
      const [from, at, certainty, compares] = open;
      for (const candidate of this.standsFor(words[at]!.word)) {
        const following = at > first ? from.next.get(candidate.word) : this.begun(candidate.word);
        if (!following || (candidate.alone && at > first)) continue;
        const sure = certainty * candidate.certainty;
        const ending = candidate.compares || compares;
        const after = at + 1;
        if (ends(following) && (!best || after > best.after || (after === best.after && sure > bestSure))) {
          const { concept, marks } = following;
          best = { concept, marks, first, after, certainty: sure * following.certainty, compares: ending };
          bestSure = sure;
        }
        if (following.next.size > 0 && !candidate.alone && after < before && words[after]!.gap === JOINED) {
          openEnds.push([following, after, sure, ending]);
        }
      }
    }
    return best;
  }

  /** Whether a word means or marks something by itself, or is a small word. */
  knows(word: string): boolean {
    if (this.small.has(word)) return true;
    return this.standsFor(word).some((candidate) => ends(this.begun(candidate.word)));
  }

  /** Make now what would be made when the first unknown word is met. */
  prepare(): void {
    this.mended("");
  }

  /** The phrases that begin with a word, in this language before English. */
  private begun(word: string): Node | undefined {
    return this.root.next.get(word) ?? this.base?.begun(word);
  }

  /** Words that stand for themselves only. One that marks and means (strong) has endings like others. */
  private fixedWords(language: Language): Set<string> {
    const marking = [...this.small].filter((word) => !this.begun(word)?.concept);
    const bare = [...language.plain, ...language.moments, ...language.realWords];
    return new Set([...bare, ...marking, ...(this.base?.fixed ?? [])]);
  }

  private plantLanguage(lexicon: Lexicon, language: Language, field: string): void {
    for (const [kind, phrases] of Object.entries(language.marks)) {
      for (const spelling of phrases.flatMap((phrase) => spellings(phrase, language))) this.mark(spelling, kind);
    }
    for (const concept of lexicon.concepts.values()) {
      for (const form of formsIn(concept, language.code)) {
        for (const spelling of spellings(form, language)) this.plant(spelling, concept.id);
      }
    }
    if (language.code !== ENGLISH) return;
    this.plantSlips(lexicon, language);
    this.share(lexicon, language, field);
  }

  /** Take a form in; one of two words also run together (brownsugar), because people type that. */
  private plant(spelling: string[], concept: string): void {
    this.grow(spelling).concept = concept;
    if (spelling.length === 1) this.mendable.add(spelling[0]!);
    else if (spelling.length === 2 && !this.root.next.has(spelling.join(""))) {
      this.grow([spelling.join("")]).concept = concept;
    }
  }

  private mark(spelling: string[], kind: string): void {
    const end = this.grow(spelling);
    if (!end.marks.includes(kind)) end.marks = [...end.marks, kind];
  }

  private plantSlips(lexicon: Lexicon, language: Language): void {
    for (const concept of lexicon.concepts.values()) {
      for (const spelling of concept.slips.flatMap((form) => spellings(form, language))) {
        Object.assign(this.grow(spelling), { concept: concept.id, certainty: ONE_SLIP });
      }
    }
  }

  /** A shared form is less certain, or its meaning is the field's. */
  private share(lexicon: Lexicon, language: Language, field: string): void {
    for (const concept of lexicon.concepts.values()) {
      for (const spelling of concept.shared.flatMap((form) => spellings(form, language))) {
        const end = this.grow(spelling);
        const owner = lexicon.concepts.get(end.concept)!.family;
        if (concept.family === field) Object.assign(end, { concept: concept.id, certainty: EXACT });
        else if (!ONLY_WHERE_ASKED.includes(concept.family) && owner !== field) end.certainty = AMBIGUOUS;
      }
    }
  }

  private grow(spelling: readonly string[]): Node {
    let at = this.root;
    for (const word of spelling) {
      let next = at.next.get(word);
      if (!next) at.next.set(word, (next = node()));
      at = next;
      this.known.add(word);
    }
    return at;
  }

  /** Words the lexicon holds that compare: "lighter", because "light" means or marks the same. */
  private comparisons(): Map<string, string> {
    const found = new Map<string, string>();
    for (const [word, one] of this.root.next) {
      if (!ends(one) || !this.endings.comparing.some((ending) => word.endsWith(ending))) continue;
      for (const candidate of inflectedFrom(word, this.known, this.endings)) {
        const stem = this.root.next.get(candidate.word);
        if (candidate.compares && stem && !candidate.alone && alike(one, stem)) found.set(word, candidate.compares);
      }
    }
    return found;
  }

  private standsFor(word: string): readonly Candidate[] {
    let found = this.met.get(word);
    if (!found) {
      if (this.met.size >= CACHED_WORDS) this.met.clear();
      this.met.set(word, (found = this.candidates(word)));
    }
    return found;
  }

  /** What a word may be a form of, by the endings of this language and then of English. */
  private inflected(word: string): Candidate[] {
    const own = inflectedFrom(word, this.known, this.endings);
    const more = this.base?.inflected(word) ?? [];
    return [...own, ...more.filter((candidate) => own.every((other) => other.word !== candidate.word))];
  }

  private compares(word: string): string {
    const own = this.comparing.get(word) ?? "";
    return own || !this.base || this.root.next.has(word) ? own : this.base.compares(word);
  }

  private holds(word: string): boolean {
    return this.known.has(word) || (this.base?.holds(word) ?? false);
  }

  private mended(word: string): Candidate | undefined {
    this.mender ??= new Mender([...this.mendable].filter((known) => !this.fixed.has(known)));
    return this.mender.meant(word) ?? this.base?.mended(word);
  }

  /** What a word may stand for. Small words and protected words stand for themselves only. */
  private candidates(word: string): readonly Candidate[] {
    const itself = { word, certainty: EXACT, alone: false, compares: this.compares(word) };
    if (this.fixed.has(word)) return this.holds(word) ? [itself] : [];
    const fit = this.inflected(word).filter((stem) => stem.word === word || !this.fixed.has(stem.word));
    if (fit.length > 0) return fit[0]!.word === word ? [itself, ...fit.slice(1)] : fit;
    const slip = this.mended(word);
    return slip ? [slip] : [];
  }
}

function node(): Node {
  return { next: new Map(), concept: "", marks: NO_MARKS, certainty: EXACT };
}

function ends(at: Node | undefined): boolean {
  return at !== undefined && (at.concept !== "" || at.marks.length > 0);
}

function alike(one: Node, other: Node): boolean {
  if (one.concept) return one.concept === other.concept;
  const amount = (mark: string): boolean => mark.startsWith(AMOUNT);
  return one.marks.some(amount) && other.marks.some(amount);
}

const indexes = new WeakMap<Lexicon, Map<string, PhraseIndex>>();

/** The index of a lexicon for a language and a field, compiled at first use. */
export function phraseIndex(lexicon: Lexicon, code: string = ENGLISH, field = ""): PhraseIndex {
  let made = indexes.get(lexicon);
  if (!made) indexes.set(lexicon, (made = new Map()));
  const key = `${code} ${field}`;
  let index = made.get(key);
  if (!index && field !== "" && !sharesForms(lexicon, field)) {
    made.set(key, (index = phraseIndex(lexicon, code))); // nothing is read otherwise there
  }
  if (!index) {
    const base = code === ENGLISH ? undefined : phraseIndex(lexicon, ENGLISH, field);
    made.set(key, (index = new PhraseIndex(lexicon, lexicon.languages.get(code)!, field, base)));
  }
  return index;
}

function sharesForms(lexicon: Lexicon, family: string): boolean {
  return [...lexicon.concepts.values()].some((concept) => concept.family === family && concept.shared.length > 0);
}

/* The forms and marks of one language as a tree of words; as PhraseIndex in core/words/phrases.py.

   Here it is compiled in small steps, so that a phone can do it between two frames, and for all fields at once: what
   a field changes stands in shared_forms.ts. */
import { spellings } from "./forms";
import { ENGLISH, formsIn, type Language, type Lexicon } from "./lexicon";
import { NO_MARKS, type Marks } from "./marks";
import { Mender } from "./mender";
import { EXACT, inflectedFrom, ONE_SLIP, type Candidate } from "./spelling";

/* Concepts planted in one step: a few milliseconds of a slow phone. */
const A_STEP = 8;
const CACHED_WORDS = 10_000;

/** A word on the way down the tree; what a phrase that ends here means and marks. */
export interface Node {
  next: Map<string, Node> | undefined;
  concept: string;
  marks: Marks;
  certainty: number;
}

/** A language other than English stands upon English, `base`. Ready when its `compile` is through. */
export class PhraseTree {
  readonly base: PhraseTree | undefined;
  readonly language: Language;
  small: ReadonlySet<string> = new Set();
  fixed: ReadonlySet<string> = new Set();
  private readonly lexicon: Lexicon;
  private readonly beginnings = new Map<string, Node>();
  private readonly root: Node = { next: this.beginnings, concept: "", marks: NO_MARKS, certainty: EXACT };
  private readonly known = new Set<string>();
  private readonly mendable = new Set<string>();
  private readonly inflections = new Map<string, readonly Candidate[]>();
  private readonly steps = this.compile();
  private mender: Mender | undefined;

  constructor(lexicon: Lexicon, language: Language, base?: PhraseTree) {
    this.lexicon = lexicon;
    this.language = language;
    this.base = base;
  }

  /** Compile some more; whether there is more to do. */
  goOn(): boolean {
    return (this.base?.goOn() ?? false) || this.steps.next().done !== true;
  }

  /** Compile what is left. */
  finish(): void {
    while (this.goOn());
  }

  /** The phrases that begin with a word, in this language only. */
  ownBegun(word: string): Node | undefined {
    return this.beginnings.get(word);
  }

  /** The phrases that begin with a word, in this language before English. */
  begun(word: string): Node | undefined {
    return this.beginnings.get(word) ?? this.base?.begun(word);
  }

  /** Where a form ends. */
  at(spelling: readonly string[]): Node {
    return spelling.reduce((at, word) => at.next!.get(word)!, this.root);
  }

  /** Whether a word stands in a form. */
  holds(word: string): boolean {
    return this.known.has(word) || (this.base?.holds(word) ?? false);
  }

  /** What a word may be a form of, by the endings of this language only. */
  ownInflected(word: string): readonly Candidate[] {
    return inflectedFrom(word, this.known, this.language.endings);
  }

  /** What a word may be a form of, by the endings of this language and then of English. */
  inflected(word: string): readonly Candidate[] {
    let found = this.inflections.get(word);
    if (!found) {
      const own = this.ownInflected(word);
      const more = this.base?.inflected(word) ?? [];
      found = [...own, ...more.filter((candidate) => own.every((other) => other.word !== candidate.word))];
      if (this.inflections.size >= CACHED_WORDS) this.inflections.clear();
      this.inflections.set(word, found);
    }
    return found;
  }

  /** What a mistyped word was meant to be. */
  mended(word: string): Candidate | undefined {
    return this.mender!.meant(word) ?? this.base?.mended(word);
  }

  private *compile(): Generator<void, void> {
    const { language, lexicon } = this;
    for (const [kind, phrases] of Object.entries(language.marks)) {
      for (const phrase of phrases) for (const spelling of spellings(phrase, language)) this.mark(spelling, kind);
      yield;
    }
    let planted = 0;
    for (const concept of lexicon.concepts.values()) {
      for (const form of formsIn(concept, language.code)) this.plant(form, concept.id);
      if ((planted += 1) % A_STEP === 0) yield;
    }
    if (language.code === ENGLISH) this.plantSlips();
    this.small = new Set([...language.small, ...(this.base?.small ?? [])]);
    this.fixed = this.fixedWords();
    yield;
    this.mender = new Mender([...this.mendable].filter((known) => !this.fixed.has(known)));
  }

  /** Words that stand for themselves only. One that marks and means (strong) has endings like others. */
  private fixedWords(): Set<string> {
    const { plain, moments, realWords } = this.language;
    const fixed = new Set([...plain, ...moments, ...realWords, ...(this.base?.fixed ?? [])]);
    for (const word of this.small) if (!this.begun(word)?.concept) fixed.add(word);
    return fixed;
  }

  /** Take a form in; one of two words also run together (brownsugar), because people type that. */
  private plant(form: string, concept: string): void {
    for (const spelling of spellings(form, this.language)) {
      this.grow(spelling).concept = concept;
      if (spelling.length === 1) this.mendable.add(spelling[0]!);
      else if (spelling.length === 2 && !this.beginnings.has(spelling[0]! + spelling[1]!)) {
        this.grow([spelling[0]! + spelling[1]!]).concept = concept;
      }
    }
  }

  private mark(spelling: readonly string[], kind: string): void {
    const end = this.grow(spelling);
    if (!end.marks.includes(kind)) end.marks = [...end.marks, kind];
  }

  private plantSlips(): void {
    for (const concept of this.lexicon.concepts.values()) {
      for (const form of concept.slips) {
        for (const spelling of spellings(form, this.language)) {
          Object.assign(this.grow(spelling), { concept: concept.id, certainty: ONE_SLIP });
        }
      }
    }
  }

  private grow(spelling: readonly string[]): Node {
    let at = this.root;
    for (const word of spelling) {
      at.next ??= new Map();
      let next = at.next.get(word);
      if (!next) at.next.set(word, (next = { next: undefined, concept: "", marks: NO_MARKS, certainty: EXACT }));
      at = next;
      this.known.add(word);
    }
    return at;
  }
}

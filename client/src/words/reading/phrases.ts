/* The longest phrase that starts at a word; as core/words/phrases.py does. */
import { ENGLISH, type Lexicon } from "./lexicon";
import { AMOUNT, type Marks } from "./marks";
import { PhraseTree, type Node } from "./phrase_tree";
import { sharedIn, sharesForms, type Meaning } from "./shared_forms";
import { EXACT, type Candidate } from "./spelling";
import { JOINED, type Token } from "./tokens";

const CACHED_WORDS = 10_000;

/** A phrase: words `first` up to but not including `after`. `concept` is "" if it only marks others. */
export interface Found {
  concept: string;
  marks: Marks;
  first: number;
  after: number;
  certainty: number;
  compares: string;
}

/** What a word may stand for, and for each of that the phrases that begin with it; no place for any if none begins. */
interface Met {
  candidates: readonly Candidate[];
  begun: readonly (Node | undefined)[];
}

/** One search: where phrases may still go on, in parallel lists, and the best end so far. Used again each time. */
class Search {
  end: Node | undefined;
  after = 0;
  sure = 0;
  compares = "";
  private words: readonly Token[] = [];
  private before = 0;
  private open = 0;
  private readonly nodes: Node[] = [];
  private readonly places: number[] = [];
  private readonly certainties: number[] = [];
  private readonly endings: string[] = [];

  begin(words: readonly Token[], before: number): void {
    this.words = words;
    this.before = before;
    this.open = this.after = this.sure = 0;
    this.compares = "";
    this.end = undefined;
  }

  /** One more word of a phrase: it may end here, it may go on. */
  step(node: Node, candidate: Candidate, at: number, certainty: number, ending: string): void {
    const sure = certainty * candidate.certainty;
    const compares = candidate.compares || ending;
    const after = at + 1;
    if (ends(node) && (after > this.after || (after === this.after && sure > this.sure))) {
      this.end = node;
      this.after = after;
      this.sure = sure;
      this.compares = compares;
    }
    if (node.next === undefined || candidate.alone || after >= this.before || this.words[after]!.gap !== JOINED) return;
    this.nodes[this.open] = node;
    this.places[this.open] = after;
    this.certainties[this.open] = sure;
    this.endings[this.open] = compares;
    this.open += 1;
  }

  /** Go on where a phrase was left open last; false if none is. */
  goOn(index: PhraseIndex): boolean {
    if (this.open === 0) return false;
    this.open -= 1;
    const { next } = this.nodes[this.open]!;
    const at = this.places[this.open]!;
    const certainty = this.certainties[this.open]!;
    const ending = this.endings[this.open]!;
    for (const candidate of index.candidates(this.words[at]!.word)) {
      const node = candidate.alone ? undefined : next!.get(candidate.word);
      if (node) this.step(node, candidate, at, certainty, ending);
    }
    return true;
  }
}

/** The phrases of a language in a field, by its tree. `base` is the same of English. */
export class PhraseIndex {
  readonly small: ReadonlySet<string>;
  readonly meant: ReadonlyMap<Node, Meaning>;
  private readonly tree: PhraseTree;
  private readonly base: PhraseIndex | undefined;
  private readonly met = new Map<string, Met>();
  private readonly search = new Search();

  constructor(tree: PhraseTree, meant: ReadonlyMap<Node, Meaning>, base?: PhraseIndex) {
    this.tree = tree;
    this.meant = meant;
    this.base = base;
    this.small = tree.small;
  }

  /** The phrase of most words from `first` on and before `before`; of equally long ones the most certain. */
  longest(words: readonly Token[], first: number, before = words.length): Found | undefined {
    const { begun, candidates } = this.standsFor(words[first]!.word);
    if (begun.length === 0) return undefined;
    const { search } = this;
    search.begin(words, before);
    for (let at = 0; at < begun.length; at += 1) {
      const node = begun[at];
      if (node) search.step(node, candidates[at]!, first, EXACT, "");
    }
    while (search.goOn(this));
    if (!search.end) return undefined;
    const { concept, certainty } = this.meaning(search.end);
    const { after, compares } = search;
    return { concept, marks: search.end.marks, first, after, certainty: search.sure * certainty, compares };
  }

  /** Whether a word means or marks something by itself, or is a small word. */
  knows(word: string): boolean {
    return this.small.has(word) || this.standsFor(word).begun.some(ends);
  }

  /** What a word may stand for. */
  candidates(word: string): readonly Candidate[] {
    return this.standsFor(word).candidates;
  }

  private meaning(node: Node): Meaning {
    return this.meant.get(node) ?? node;
  }

  private standsFor(word: string): Met {
    let found = this.met.get(word);
    if (!found) {
      if (this.met.size >= CACHED_WORDS) this.met.clear();
      const candidates = this.newCandidates(word);
      const begun = candidates.map((candidate) => this.tree.begun(candidate.word));
      found = { candidates, begun: begun.some(Boolean) ? begun : [] };
      this.met.set(word, found);
    }
    return found;
  }

  /** The same, found out: small words and protected words stand for themselves only. */
  private newCandidates(word: string): readonly Candidate[] {
    const { tree } = this;
    const itself = { word, certainty: EXACT, alone: false, compares: this.compares(word) };
    if (tree.fixed.has(word)) return tree.holds(word) ? [itself] : [];
    const fit = tree.inflected(word).filter((stem) => stem.word === word || !tree.fixed.has(stem.word));
    if (fit.length > 0) return fit[0]!.word === word ? [itself, ...fit.slice(1)] : fit;
    const slip = tree.mended(word);
    return slip ? [slip] : [];
  }

  /** How a word that the lexicon holds compares: "lighter", because "light" means or marks the same. */
  private compares(word: string): string {
    const own = this.tree.ownBegun(word);
    if (!own) return this.base?.compares(word) ?? "";
    if (!ends(own) || !this.tree.language.endings.comparing.some((ending) => word.endsWith(ending))) {
      return "";
    }
    let found = "";
    for (const candidate of this.tree.ownInflected(word)) {
      const stem = this.tree.ownBegun(candidate.word);
      if (candidate.compares && stem && !candidate.alone && this.alike(own, stem)) found = candidate.compares;
    }
    return found;
  }

  private alike(one: Node, other: Node): boolean {
    const { concept } = this.meaning(one);
    if (concept) return concept === this.meaning(other).concept;
    const amount = (mark: string): boolean => mark.startsWith(AMOUNT);
    return one.marks.some(amount) && other.marks.some(amount);
  }
}

function ends(at: Node | undefined): boolean {
  return at !== undefined && (at.concept !== "" || at.marks.length > 0);
}

interface Compiled {
  trees: Map<string, PhraseTree>;
  indexes: Map<string, PhraseIndex>;
}

const compiled = new WeakMap<Lexicon, Compiled>();

function compiledOf(lexicon: Lexicon): Compiled {
  let made = compiled.get(lexicon);
  if (!made) compiled.set(lexicon, (made = { trees: new Map(), indexes: new Map() }));
  return made;
}

/** The tree of a language, to be compiled yet or already. */
export function phraseTree(lexicon: Lexicon, code: string): PhraseTree {
  const { trees } = compiledOf(lexicon);
  let tree = trees.get(code);
  if (!tree) {
    const base = code === ENGLISH ? undefined : phraseTree(lexicon, ENGLISH);
    trees.set(code, (tree = new PhraseTree(lexicon, lexicon.languages.get(code)!, base)));
  }
  return tree;
}

/** The index of a lexicon for a language and a field, compiled at first use. */
export function phraseIndex(lexicon: Lexicon, code: string = ENGLISH, field = ""): PhraseIndex {
  const { indexes } = compiledOf(lexicon);
  const key = `${code} ${field}`;
  let index = indexes.get(key);
  if (!index) indexes.set(key, (index = newIndex(lexicon, code, field)));
  return index;
}

function newIndex(lexicon: Lexicon, code: string, field: string): PhraseIndex {
  if (field !== "" && !sharesForms(lexicon, field)) return phraseIndex(lexicon, code); // nothing is read otherwise there
  const tree = phraseTree(lexicon, code);
  tree.finish();
  const base = code === ENGLISH ? undefined : phraseIndex(lexicon, ENGLISH, field);
  return new PhraseIndex(tree, base?.meant ?? sharedIn(field, lexicon, tree), base);
}

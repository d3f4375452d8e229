/* The room of words: a concept looked up, the map, and the own words. */
import type { Api } from "../wire/api";
import { Asking } from "../wire/asking.svelte";
import type { OwnWord } from "../wire/types";
import type { ConceptView, KeptOwnWord, ListedConcept, WordMap } from "../wire/words";
import { lookUp } from "../words/search";

type Lexicon = Pick<
  Api,
  "words" | "word" | "wordMap" | "ownWords" | "addOwnWord" | "removeOwnWord" | "importOwnWords"
>;

export type Span = "whole" | "around";

/** A word being added: a new concept under another, or one more form of it. */
export interface Draft {
  kind: "concept" | "form";
  word: string;
  forms: string;
  /** the concept it hangs under or is a form of, "" until one is chosen */
  concept: string;
}

const EMPTY: Draft = { kind: "concept", word: "", forms: "", concept: "" };

export class WordsState {
  concepts = $state<ListedConcept[]>([]);
  chosen = $state<ConceptView | null>(null);
  map = $state<WordMap | null>(null);
  span = $state<Span>("whole");
  own = $state<KeptOwnWord[] | null>(null);
  draft = $state<Draft>({ ...EMPTY });
  loading = new Asking();
  mapping = new Asking();
  saving = new Asking();
  #api: Lexicon;
  /** the whole map is the same until the own words change */
  #whole: WordMap | null = null;

  constructor(api: Lexicon) {
    this.#api = api;
  }

  async load(id: string): Promise<void> {
    await this.#refresh();
    await (id === "" ? this.draw() : this.choose(id));
  }

  async #refresh(): Promise<void> {
    const found = await this.loading.run(() => Promise.all([this.#api.words(), this.#api.ownWords()]));
    if (found === undefined) return;
    [this.concepts, this.own] = found;
  }

  /** Take a concept in hand and draw what is around it. */
  async choose(id: string): Promise<void> {
    const chosen = await this.loading.run(() => this.#api.word(id));
    if (chosen === undefined) return;
    if (this.chosen === null) this.span = "around";
    this.chosen = chosen;
    await this.draw();
  }

  async show(span: Span): Promise<void> {
    this.span = span;
    await this.draw();
  }

  async draw(): Promise<void> {
    const around = this.span === "around" ? (this.chosen?.id ?? "") : "";
    const known = around === "" ? this.#whole : null;
    const map = known ?? (await this.mapping.run(() => this.#api.wordMap(around)));
    if (map === undefined) return;
    if (around === "") this.#whole = map;
    // What was asked for meanwhile holds.
    if (around === (this.span === "around" ? (this.chosen?.id ?? "") : "")) this.map = map;
  }

  find(typed: string, most?: number): ListedConcept[] {
    return lookUp(this.concepts, typed, most);
  }

  labelOf(id: string): string {
    return this.concepts.find((concept) => concept.id === id)?.label ?? id;
  }

  /** Whether enough is said to add the word. */
  get ready(): boolean {
    return this.draft.word.trim() !== "" && this.draft.concept !== "";
  }

  /** What was added is called, or "" after a refusal. */
  async add(): Promise<string> {
    const added = await this.saving.run(() => this.#api.addOwnWord(wordOf(this.draft)));
    if (added === undefined) return "";
    this.draft = { ...EMPTY, kind: this.draft.kind };
    await this.#changed();
    return nameOf(added);
  }

  async remove(word: KeptOwnWord): Promise<boolean> {
    const gone = await this.saving.run(async () => {
      await this.#api.removeOwnWord(word.id);
      return true;
    });
    if (gone === undefined) return false;
    if (this.chosen?.id === word.concept && word.label !== "") this.chosen = null;
    await this.#changed();
    return true;
  }

  /** How many of a file's words are new and how many were here, or null after a refusal. */
  async take(file: File): Promise<{ added: number; known: number } | null> {
    const text = await file.text();
    const taken = await this.saving.run(() => this.#api.importOwnWords(text));
    if (taken === undefined) return null;
    await this.#changed();
    return taken;
  }

  async #changed(): Promise<void> {
    this.#whole = null;
    await this.#refresh();
    await (this.chosen === null ? this.draw() : this.choose(this.chosen.id));
  }
}

/** What an own word is called: its label, or the form that was added. */
export function nameOf(word: OwnWord): string {
  return word.label === "" ? (word.forms[0] ?? "") : word.label;
}

function wordOf({ kind, word, forms, concept }: Draft): OwnWord {
  const written = word.trim();
  if (kind === "form") return { concept, label: "", parents: [], forms: [written] };
  const others = forms.split(",").map((form) => form.trim()).filter((form) => form !== "");
  return { concept: "", label: written, parents: [concept], forms: others };
}

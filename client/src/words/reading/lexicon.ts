/* The lexicon as the client reads by it. lexicon.json is made from the lexicon of core/words by make_lexicon.py. */

export const ENGLISH = "en";
export const INTENSITY = "intensity";

export interface Concept {
  id: string;
  label: string;
  family: string;
  parents: readonly string[];
  forms: readonly string[];
  slips: readonly string[];
  shared: readonly string[];
  about: string;
  takes: Readonly<Record<string, string>>;
  low: string;
  middle: string;
  high: string;
  denied: string;
  labels: Readonly<Record<string, string>>;
  written: Readonly<Record<string, readonly string[]>>;
}

/** Endings of a language, each with what may have stood in its place. */
export interface Endings {
  number: readonly (readonly string[])[];
  quality: readonly (readonly string[])[];
  doubling: readonly string[];
  hissing: readonly string[];
  comparing: readonly string[];
}

export interface Language {
  code: string;
  plain: ReadonlySet<string>;
  moments: ReadonlySet<string>;
  realWords: ReadonlySet<string>;
  small: ReadonlySet<string>;
  marks: Readonly<Record<string, readonly string[]>>;
  spelling: Readonly<Record<string, string>>;
  endings: Endings;
  groups: Readonly<Record<string, readonly string[]>>;
}

/** All concepts by id, in their order. Indexes are kept by the identity of a lexicon, so it is never changed. */
export interface Lexicon {
  concepts: ReadonlyMap<string, Concept>;
  families: readonly string[];
  languages: ReadonlyMap<string, Language>;
}

export interface ConceptData {
  label?: string;
  parents?: string;
  forms?: string;
  slips?: string;
  shared?: string;
  about?: string;
  takes?: Record<string, string>;
  low?: string;
  middle?: string;
  high?: string;
  denied?: string;
  labels?: Record<string, string>;
  written?: Record<string, string>;
}

export interface LanguageData {
  plain: string;
  moments: string;
  realWords: string;
  marks: Record<string, string>;
  spelling: Record<string, string>;
  endings: Endings;
  groups: Record<string, string>;
}

export interface LexiconData {
  families: string[];
  concepts: Record<string, ConceptData>;
  languages: Record<string, LanguageData>;
}

let loading: Promise<Lexicon> | undefined;

/** The lexicon that comes with the program, fetched once and then kept. A failed fetch can be tried again. */
export function loadLexicon(): Promise<Lexicon> {
  loading ??= import("./lexicon.json").then(
    (file) => lexiconFrom(file.default as unknown as LexiconData),
    (fault: unknown) => {
      loading = undefined;
      throw fault;
    },
  );
  return loading;
}

/** A lexicon from its data. */
export function lexiconFrom(data: LexiconData): Lexicon {
  const concepts = new Map<string, Concept>();
  for (const [id, row] of Object.entries(data.concepts)) concepts.set(id, conceptFrom(id, row, data));
  const languages = new Map<string, Language>();
  for (const [code, row] of Object.entries(data.languages)) languages.set(code, languageFrom(code, row));
  return { concepts, families: data.families, languages };
}

/** What is shown for a concept in a language; the British English label where there is no other. */
export function labelIn(concept: Concept, language: string): string {
  return concept.labels[language] ?? concept.label;
}

/** How a concept is written in a language. */
export function formsIn(concept: Concept, language: string): readonly string[] {
  return language === ENGLISH ? concept.forms : (concept.written[language] ?? []);
}

const above = new WeakMap<Lexicon, Map<string, ReadonlySet<string>>>();

/** A concept and everything above it. */
export function ancestors(lexicon: Lexicon, concept: string): ReadonlySet<string> {
  let found = above.get(lexicon);
  if (!found) above.set(lexicon, (found = new Map()));
  let set = found.get(concept);
  if (!set) {
    const parents = lexicon.concepts.get(concept)?.parents ?? [];
    set = new Set([concept, ...parents.flatMap((parent) => [...ancestors(lexicon, parent)])]);
    found.set(concept, set);
  }
  return set;
}

function conceptFrom(id: string, row: ConceptData, data: LexiconData): Concept {
  return {
    id,
    label: row.label ?? id.replaceAll("_", " "),
    family: familyOf(id, data),
    parents: words(row.parents),
    forms: split(row.forms),
    slips: split(row.slips),
    shared: split(row.shared),
    about: row.about ?? "character",
    takes: row.takes ?? {},
    low: row.low ?? "",
    middle: row.middle ?? "",
    high: row.high ?? "",
    denied: row.denied ?? "",
    labels: row.labels ?? {},
    written: mapped(row.written ?? {}),
  };
}

function familyOf(id: string, data: LexiconData): string {
  let head = id;
  for (;;) {
    const first = words(data.concepts[head]?.parents)[0];
    if (first === undefined) return head;
    head = first;
  }
}

function languageFrom(code: string, row: LanguageData): Language {
  const marks = mapped(row.marks);
  const plain = new Set(words(row.plain));
  const moments = new Set(words(row.moments));
  const single = Object.values(marks).flatMap((phrases) => phrases.filter((phrase) => !phrase.includes(" ")));
  return {
    code,
    plain,
    moments,
    realWords: new Set(words(row.realWords)),
    small: new Set([...plain, ...moments, ...single]),
    marks,
    spelling: row.spelling,
    endings: row.endings,
    groups: mapped(row.groups),
  };
}

function mapped(texts: Record<string, string>): Record<string, readonly string[]> {
  return Object.fromEntries(Object.entries(texts).map(([key, text]) => [key, split(text)]));
}

function split(text: string | undefined): string[] {
  return text ? text.split("|") : [];
}

function words(text: string | undefined): string[] {
  return text ? text.split(" ") : [];
}

/* Looking a concept up while its name is being typed: by its label first, then by any way to write it. */

export interface Findable {
  id: string;
  label: string;
  forms: readonly string[];
}

/** At most `most` concepts that what was typed could mean, the likeliest first; none before something is typed. */
export function lookUp<Concept extends Findable>(concepts: readonly Concept[], typed: string, most = 8): Concept[] {
  const wanted = bare(typed);
  if (wanted === "") return [];
  return concepts
    .map((concept) => ({ concept, rank: rankOf(concept, wanted) }))
    .filter(({ rank }) => rank < NO_MATCH)
    .sort((a, b) => a.rank - b.rank || a.concept.label.length - b.concept.label.length || compare(a.concept, b.concept))
    .slice(0, most)
    .map(({ concept }) => concept);
}

const NO_MATCH = 6;

function rankOf({ label, forms }: Findable, wanted: string): number {
  const byLabel = fit(bare(label), wanted);
  const byForm = Math.min(NO_MATCH, ...forms.map((form) => fit(bare(form), wanted)));
  return Math.min(2 * byLabel, 2 * byForm + 1, NO_MATCH);
}

/** 0: it is that; 1: it begins so; 2: one of its words begins so; 3: no. */
function fit(name: string, wanted: string): number {
  if (name === wanted) return 0;
  if (name.startsWith(wanted)) return 1;
  return name.includes(` ${wanted}`) ? 2 : 3;
}

function bare(text: string): string {
  return text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase().replace(/[^\p{L}\p{N}]+/gu, " ").trim();
}

function compare(a: Findable, b: Findable): number {
  return a.label < b.label ? -1 : a.label > b.label ? 1 : 0;
}

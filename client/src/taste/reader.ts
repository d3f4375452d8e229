/* One taster's reader: the lexicon with the house's own words, and what the taster has said that words mean. */
import { standingCorrections } from "../local/corrections";
import { corrections, type Corrections } from "../words/reading/corrections";
import { extended } from "../words/reading/extending";
import { compileWhenIdle, type Idle, turn, whenIdle } from "../words/reading/idle";
import type { Lexicon } from "../words/reading/lexicon";
import { readNote } from "../words/reading/reading";
import { type Findable, lookUp } from "../words/search";
import type { Correction, OwnWord } from "../wire/types";
import { type Chip, chipsOf } from "./chips";

// A first reading also takes longer because the program has not run yet: this note runs most of it. Words of no
// language make it look into every index.
const TRIAL = "Xqzvw, wvzqx. Not too sweet, maybe a hint of plum? Less bitter than the first; fuller as it cools.";
// A lexicon is compiled at its first use, which takes a phone a moment: the last one is kept.
let last: { plain: Lexicon; own: readonly OwnWord[]; lexicon: Lexicon } | null = null;

function lexiconWith(plain: Lexicon, own: readonly OwnWord[]): Lexicon {
  if (last?.own !== own || last.plain !== plain) last = { plain, own, lexicon: extended(plain, own) };
  return last.lexicon;
}

export class Reader {
  #lexicon: Lexicon;
  #said: ReadonlyMap<string, string>;
  #own: Corrections;
  #concepts: Findable[] | null = null;

  /** `plain` is the lexicon that comes with the program. */
  constructor(plain: Lexicon, own: readonly OwnWord[], said: readonly Correction[]) {
    this.#lexicon = lexiconWith(plain, own);
    this.#said = standingCorrections(said);
    this.#own = corrections(this.#said, this.#lexicon);
  }

  /** How a note is read, as chips; `asked` is the pass it was written in. */
  chips(text: string, asked: string): Chip[] {
    return chipsOf(readNote(text, this.#lexicon, { field: asked, corrections: this.#own }), this.#said);
  }

  /** Compile the lexicon and try it on the passes, when nothing else is to be done: a slow phone takes half a second. */
  async getReady(asked: readonly string[], idle: Idle = whenIdle): Promise<void> {
    await compileWhenIdle(this.#lexicon, idle);
    for (const pass of asked) await turn(idle, () => this.chips(TRIAL, pass));
  }

  /** Concepts that what was typed could mean; none before something is typed. */
  find(typed: string): Findable[] {
    this.#concepts ??= [...this.#lexicon.concepts.values()].map(({ id, label, forms }) => ({
      id,
      label,
      forms: forms.map((form) => form.replace(/[{}]/g, "")),
    }));
    return lookUp(this.#concepts, typed, 6);
  }
}

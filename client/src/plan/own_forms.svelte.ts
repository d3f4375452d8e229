/* Sheets and protocols of one's own: taken in from a file, listed, put away. */
import type { Api } from "../wire/api";
import { Asking } from "../wire/asking.svelte";
import { Problem } from "../wire/problem";
import { type FormKind, ownForms } from "../words/own_forms_en";

type Keeping = Pick<Api, "ownSheets" | "keepSheet" | "removeSheet" | "protocols" | "keepProtocol" | "removeProtocol">;

export interface OwnForm {
  name: string;
  version: number;
  text: string;
}

export class OwnForms {
  readonly kind: FormKind;
  own = $state<OwnForm[] | null>(null);
  asking = new Asking();
  /** the file that was refused; "" for none */
  refused = $state("");
  #api: Keeping;

  constructor(api: Keeping, kind: FormKind) {
    this.#api = api;
    this.kind = kind;
  }

  async load(): Promise<void> {
    this.own = (await this.asking.run(() => this.#listed())) ?? this.own;
  }

  /** Keep the form that a file holds; what is kept, or null after a refusal. */
  async take(file: File): Promise<{ name: string; title: string; version: number } | null> {
    this.refused = "";
    const kept = await this.asking.run(async () => {
      const text = await textOf(file);
      return this.kind === "sheet" ? this.#api.keepSheet(text) : this.#api.keepProtocol(text);
    });
    if (kept === undefined) {
      this.refused = file.name;
      return null;
    }
    await this.load();
    return kept;
  }

  /** Whether it is put away now. */
  async remove(name: string): Promise<boolean> {
    this.refused = "";
    const away = this.kind === "sheet" ? this.#api.removeSheet : this.#api.removeProtocol;
    const done = await this.asking.run(async () => (await away(name), true));
    if (done) await this.load();
    return done ?? false;
  }

  async #listed(): Promise<OwnForm[]> {
    if (this.kind === "sheet") return this.#api.ownSheets();
    return (await this.#api.protocols()).filter((one) => one.own);
  }
}

/** The text of a file; bytes that are no UTF-8 would be kept as question marks. */
async function textOf(file: File): Promise<string> {
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(await file.arrayBuffer());
  } catch {
    throw new Problem({ status: -1, title: "", detail: ownForms.notText, todo: ownForms.notTextTodo, where: { file: file.name } });
  }
}

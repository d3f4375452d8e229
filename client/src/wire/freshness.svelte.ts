/* Whether this page is the one the server serves now. It may have been opened from a cache half a day old. */

type ReadPage = () => Promise<string>;

/**
 * The first page past every cache. It is not kept either: a newer page whose script was never loaded could not
 * be opened without the server, while the old one and its script still can.
 */
const readPage: ReadPage = async () => (await fetch("/", { cache: "no-store" })).text();

export class Freshness {
  stale = $state(false);
  #own: string;
  #readPage: ReadPage;
  #seen = "";

  /** `own` is the file this page runs from; its name carries its content's hash. */
  constructor(own: string, read: ReadPage = readPage) {
    this.#own = own;
    this.#readPage = read;
  }

  /** Told what the server serves; looks closer only when that is new. */
  async served(build: string): Promise<void> {
    if (build === "" || build === this.#seen) return;
    const page = await this.#readPage().catch(() => null);
    if (page === null) return;
    this.#seen = build;
    this.stale = !page.includes(this.#own);
  }
}

const file = new URL(import.meta.url).pathname.split("/").at(-1) ?? "";
export const freshness = new Freshness(file);

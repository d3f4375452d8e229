/* The server as a seat sees it: two questions, and answers sorted by what they mean for an unsent note. */
import { local } from "../words/local";
import type { Report } from "../wire/report";
import type { Comparison, Correction, Kept, Note, SeatView } from "../wire/types";

export type Fetch = (input: string, init?: RequestInit) => Promise<Response>;

/**
 * ok: the server did it. refused: it understood and says no to what was sent. stranger: it no longer knows
 * this seat. later: nothing is decided; `fault` if the server itself failed over what was sent.
 */
export type Reply<T> =
  | { kind: "ok"; value: T }
  | { kind: "refused"; sentence: string }
  | { kind: "stranger"; sentence: string }
  | { kind: "later"; sentence: string; fault: boolean };

const PATIENCE_MS = 15_000;
// What a refusal of the content looks like; 404 only in the program's own form, since any other server has it too.
const ABOUT_CONTENT = [400, 409, 413, 422];

export class SeatServer {
  #fetch: Fetch;
  #token: string;
  #patience: number;

  constructor(fetcher: Fetch, token: string, patience = PATIENCE_MS) {
    this.#fetch = fetcher;
    this.#token = token;
    this.#patience = patience;
  }

  /** Hand over notes; the answer names the ids that are safe. */
  post(notes: Note[]): Promise<Reply<Kept>> {
    return this.#ask("/api/seat/notes", isKept, { method: "POST", body: JSON.stringify({ notes }) });
  }

  /** Hand over corrections of the taster who sits here; the answer names the ids that are safe. */
  correct(corrections: Correction[]): Promise<Reply<Pick<Kept, "kept">>> {
    return this.#ask("/api/seat/corrections", isKept, { method: "POST", body: JSON.stringify({ corrections }) });
  }

  /** The seat's table, and the notes the server has counted after `after`. */
  view(after: number): Promise<Reply<SeatView>> {
    return this.#ask(`/api/seat?after=${after}`, isSeatView, { method: "GET" });
  }

  /** After the reveal: everybody's words side by side, this seat's first. */
  comparison(): Promise<Reply<Comparison>> {
    return this.#ask("/api/seat/reveal", isComparison, { method: "GET" });
  }

  /** After the reveal: what this seat's own scores say, for whoever sits here alone. */
  own(): Promise<Reply<Pick<Report, "blocks">>> {
    return this.#ask("/api/seat/own", isBlocks, { method: "GET" });
  }

  async #ask<T>(path: string, isAnswer: (body: unknown) => body is T, init: RequestInit): Promise<Reply<T>> {
    const headers = { Authorization: `Bearer ${this.#token}`, "Content-Type": "application/json" };
    const abort = new AbortController();
    const timer = setTimeout(() => abort.abort(), this.#patience);
    try {
      // A redirect would come from somebody else's network, as in a hotel.
      const options: RequestInit = { ...init, headers, signal: abort.signal, redirect: "error", cache: "no-store" };
      return await sorted(await this.#fetch(path, options), isAnswer);
    } catch {
      return { kind: "later", sentence: local.unreachable, fault: false };
    } finally {
      clearTimeout(timer);
    }
  }
}

async function sorted<T>(response: Response, isAnswer: (body: unknown) => body is T): Promise<Reply<T>> {
  const body = await bodyOf(response);
  if (response.ok && isAnswer(body)) return { kind: "ok", value: body };
  const told = sentenceIn(body);
  const sentence = told ?? local.oddAnswer(response.status);
  if (response.status === 401 && told !== null) return { kind: "stranger", sentence };
  if (ABOUT_CONTENT.includes(response.status) || (response.status === 404 && told !== null)) {
    return { kind: "refused", sentence };
  }
  return { kind: "later", sentence, fault: response.status >= 500 };
}

async function bodyOf(response: Response): Promise<unknown> {
  const text = await response.text();
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

/** The one sentence of a refusal in the program's form (RFC 9457), or null if it is not in that form. */
function sentenceIn(body: unknown): string | null {
  const detail = isRecord(body) ? body["detail"] : null;
  return typeof detail === "string" && detail !== "" ? detail : null;
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function isKept(body: unknown): body is Kept {
  return isRecord(body) && Array.isArray(body["kept"]) && body["kept"].every((id) => typeof id === "string");
}

function isSeatView(body: unknown): body is SeatView {
  return isRecord(body) && Array.isArray(body["notes"]) && isRecord(body["table"]) && isRecord(body["seat"]);
}

function isBlocks(body: unknown): body is Pick<Report, "blocks"> {
  return isRecord(body) && Array.isArray(body["blocks"]);
}

function isComparison(body: unknown): body is Comparison {
  return isRecord(body) && Array.isArray(body["coffees"]) && isRecord(body["key"]);
}

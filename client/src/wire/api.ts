/* The desk's side of the API, typed. Every failure is a Problem: a refusal of the server, or no answer at all. */
import { en } from "../words/en";
import type { TableEvent } from "./live";
import { Problem, type ProblemBody } from "./problem";
import type { Analysis } from "./analysis";
import type { Outlook } from "./outlook";
import type { Protocol } from "./protocols";
import type { Cooling } from "./cooling";
import type { Report } from "./report";
import type { SizeAnswer, SizeNumbers } from "./size";
import type { TakenIn } from "./taken_in";
import type {
  Brief,
  Coffee,
  CoffeeImport,
  Comparison,
  Health,
  JoinView,
  Joined,
  NewCoffee,
  OwnSheet,
  OwnWord,
  Plan,
  PourLine,
  RunSheet,
  SeatProgress,
  Sheet,
  TableLine,
  TableTotal,
  TableView,
} from "./types";
import type { WaterAnswer, WaterKnown, WaterWish } from "./water";
import type { ConceptView, ImportedWords, KeptOwnWord, ListedConcept, WordMap } from "./words";

export type Fetch = (input: string, init?: RequestInit) => Promise<Response>;

/** What the server said no with; words of our own where the answer is not in the one form. */
async function problemIn(response: Response): Promise<Problem> {
  const body = (await response.json().catch(() => null)) as Partial<ProblemBody> | null;
  return new Problem({
    status: response.status,
    title: body?.title ?? "",
    detail: body?.detail ?? en.wire.oddAnswer(response.status),
    todo: body?.todo ?? "",
    where: body?.where ?? null,
    about: body?.about ?? "",
  });
}

function unreachable(): Problem {
  return new Problem({ status: 0, title: "", detail: en.wire.unreachable, todo: en.wire.unreachableTodo, where: null });
}

export class Api {
  /** called when the server no longer knows this browser */
  onNotKnown: () => void = () => undefined;
  #fetch: Fetch;

  constructor(fetcher: Fetch = (input, init) => fetch(input, init)) {
    this.#fetch = fetcher;
  }

  async #ask<Answer>(method: string, path: string, body?: unknown): Promise<Answer> {
    const init: RequestInit = { method, credentials: "same-origin" };
    if (body instanceof FormData) init.body = body;
    else if (body !== undefined) {
      init.body = JSON.stringify(body);
      init.headers = { "Content-Type": "application/json" };
    }
    const response = await this.#fetch(`/api${path}`, init).catch(() => {
      throw unreachable();
    });
    if (response.status === 401) this.onNotKnown();
    if (!response.ok) throw await problemIn(response);
    return (response.status === 204 ? undefined : await response.json()) as Answer;
  }

  async #send<Answer>(path: string, file: File): Promise<Answer> {
    const form = new FormData();
    form.append("file", file);
    return this.#ask<Answer>("POST", path, form);
  }

  health = () => this.#ask<Health>("GET", "/health");
  enterDesk = (passphrase: string, word = "") => this.#ask<Health>("POST", "/desk/enter", { passphrase, word });
  leaveDesk = () => this.#ask<void>("POST", "/desk/leave", {});

  coffees = () => this.#ask<Coffee[]>("GET", "/coffees");
  addCoffee = (coffee: NewCoffee) => this.#ask<Coffee>("POST", "/coffees", coffee);
  changeCoffee = (id: string, coffee: NewCoffee) => this.#ask<Coffee>("PUT", `/coffees/${id}`, coffee);
  removeCoffee = (id: string) => this.#ask<void>("DELETE", `/coffees/${id}`);
  importText = (text: string) => this.#ask<CoffeeImport>("POST", "/coffees/import", { text });
  importFile = (file: File) => this.#send<CoffeeImport>("/coffees/import", file);

  sheets = () => this.#ask<Sheet[]>("GET", "/sheets");
  ownSheets = () => this.#ask<OwnSheet[]>("GET", "/own-sheets");
  keepSheet = (text: string) => this.#ask<Sheet>("POST", "/sheets", { text });
  removeSheet = (name: string) => this.#ask<void>("DELETE", `/own-sheets/${name}`);
  protocols = () => this.#ask<Protocol[]>("GET", "/protocols");
  keepProtocol = (text: string) => this.#ask<Protocol>("POST", "/protocols", { text });
  removeProtocol = (name: string) => this.#ask<void>("DELETE", `/protocols/${name}`);
  tables = () => this.#ask<TableLine[]>("GET", "/tables");
  table = (id: string) => this.#ask<TableView>("GET", `/tables/${id}`);
  planTable = (plan: Plan) => this.#ask<TableView>("POST", "/tables", plan);
  replanTable = (id: string, plan: Plan) => this.#ask<TableView>("PUT", `/tables/${id}`, plan);
  removeTable = (id: string, name: string) =>
    this.#ask<void>("DELETE", `/tables/${id}?name=${encodeURIComponent(name)}`);
  previewBrief = (plan: Plan) => this.#ask<Brief>("POST", "/tables/preview", plan);
  previewOutlook = (plan: Plan) => this.#ask<Outlook>("POST", "/tables/preview/outlook", plan);
  brief = (id: string) => this.#ask<Brief>("GET", `/tables/${id}/brief`);
  size = (question: string, numbers: SizeNumbers) => {
    const asked = Object.entries(numbers).map(([name, value]) => [name, String(value)]);
    return this.#ask<SizeAnswer>("GET", `/size/${question}?${new URLSearchParams(asked)}`);
  };
  seal = (id: string) => this.#ask<TableView>("POST", `/tables/${id}/seal`, {});

  pourList = (id: string) => this.#ask<PourLine[]>("GET", `/tables/${id}/pour-list`);
  join = (id: string) => this.#ask<JoinView>("GET", `/tables/${id}/join`);
  startClock = (id: string) => this.#ask<TableView>("POST", `/tables/${id}/clock`, {});
  cooling = (id: string) => this.#ask<Cooling>("GET", `/tables/${id}/cooling`);
  noteReading = (id: string, bowl: number, celsius: number) =>
    this.#ask<Cooling>("POST", `/tables/${id}/readings`, { bowl, celsius });
  dropReading = (id: string, bowl: number, at: number) =>
    this.#ask<Cooling>("DELETE", `/tables/${id}/readings?bowl=${bowl}&at=${at}`);
  takeBackStart = (id: string) => this.#ask<TableView>("DELETE", `/tables/${id}/clock`);
  markAct = (id: string, kind: string, bowl: number) => this.#ask<RunSheet>("POST", `/tables/${id}/marks`, { kind, bowl });
  takeBackMark = (id: string, kind: string, bowl: number) => this.#ask<RunSheet>("DELETE", `/tables/${id}/marks/${kind}/${bowl}`);
  runSheet = (id: string) => this.#ask<RunSheet>("GET", `/tables/${id}/run-sheet`);

  waterKnown = () => this.#ask<WaterKnown>("GET", "/water/known");
  mixWater = (wish: WaterWish) => this.#ask<WaterAnswer>("POST", "/water/mix", wish);

  progress = (id: string) => this.#ask<SeatProgress[]>("GET", `/tables/${id}/progress`);
  takeSeat = (id: string, name: string) => this.#ask<Joined>("POST", `/tables/${id}/seats`, { name });
  freeSeat = (id: string, seat: string) => this.#ask<void>("DELETE", `/tables/${id}/seats/${seat}/token`);

  takeNotesFile = (id: string, file: File) => this.#send<TakenIn>(`/tables/${id}/notes-file`, file);

  sitDown = (code: string, name: string) => this.#ask<Joined>("POST", "/join", { code, name });

  openKey = (id: string, placings: Record<string, string> | null) =>
    this.#ask<TableView>("POST", `/tables/${id}/reveal`, { placings });
  comparison = (id: string) => this.#ask<Comparison>("GET", `/tables/${id}/reveal`);
  points = (id: string) => this.#ask<TableTotal[]>("GET", `/tables/${id}/points`);
  analysis = (id: string) => this.#ask<Analysis>("GET", `/tables/${id}/analysis`);
  season = () => this.#ask<Report>("GET", "/season");
  questions = (id: string) => this.#ask<Report>("GET", `/tables/${id}/questions`);
  report = (id: string) => this.#ask<Report>("GET", `/tables/${id}/report.json`);
  events = (id: string) => this.#ask<TableEvent[]>("GET", `/tables/${id}/events`);

  words = () => this.#ask<ListedConcept[]>("GET", "/words");
  word = (id: string) => this.#ask<ConceptView>("GET", `/words/${id}`);
  wordMap = (around = "") => this.#ask<WordMap>("GET", `/words/map?around=${around}`);
  ownWords = () => this.#ask<KeptOwnWord[]>("GET", "/own-words");
  addOwnWord = (word: OwnWord) => this.#ask<KeptOwnWord>("POST", "/own-words", word);
  removeOwnWord = (id: string) => this.#ask<void>("DELETE", `/own-words/${id}`);
  importOwnWords = (text: string) => this.#ask<ImportedWords>("POST", "/own-words/import", { text });
}

type PaperSize = "a4" | "letter";

/** Where the browser itself fetches a file. */
export const files = {
  labels: (id: string, size: PaperSize) => `/api/tables/${id}/labels.pdf?size=${size}`,
  paper: (id: string, size: PaperSize) => `/api/tables/${id}/paper.pdf?size=${size}`,
  pourList: (id: string, size: PaperSize) => `/api/tables/${id}/pour-list.pdf?size=${size}`,
  ownWords: () => "/api/own-words/file",
  report: (id: string, form: "html" | "pdf" | "json") => `/api/tables/${id}/report.${form}`,
};

export const api = new Api();

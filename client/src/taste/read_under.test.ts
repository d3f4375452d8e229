// @vitest-environment happy-dom
import { createRawSnippet, flushSync, mount, unmount } from "svelte";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { loadLexicon } from "../words/reading/lexicon";
import { taster } from "../words/taster_en";
import { Reader } from "./reader";
import ReadUnder from "./ReadUnder.svelte";
import type { Sitting } from "./sitting.svelte";

const reader = new Reader(await loadLexicon(), [], []);
const said: [string, string | null][] = [];
let shown: Record<string, unknown>;

function under(text: string, changes: Partial<Sitting> = {}): HTMLElement {
  const sitting = { reader, closed: false, prepare: async () => undefined, correct: async (...what: [string, string | null]) => void said.push(what), ...changes };
  const children = createRawSnippet(() => ({ render: () => "<textarea></textarea>" }));
  shown = mount(ReadUnder, { target: document.body, props: { sitting: sitting as unknown as Sitting, text, asked: "flavour", children } });
  flushSync();
  return document.body;
}

const chips = () => [...document.querySelectorAll("li button")].map((chip) => chip.textContent.trim());
const focus = (kind: "focusin" | "focusout") => {
  document.querySelector("textarea")!.dispatchEvent(new FocusEvent(kind, { bubbles: true }));
  flushSync();
};

beforeEach(() => {
  vi.useFakeTimers();
  said.length = 0;
  // happy-dom's dialog does not open as a modal
  HTMLDialogElement.prototype.showModal = function () { this.open = true; };
});
afterEach(() => {
  void unmount(shown);
  document.body.innerHTML = "";
  vi.useRealTimers();
});

test("nothing is shown before something is written", () => {
  under("  ");
  focus("focusin");
  focus("focusout");
  vi.advanceTimersByTime(1000);
  flushSync();
  expect(chips()).toEqual([]);
  expect(document.body.textContent).not.toContain(taster.readBack.title);
});

test("the reading vanishes while somebody writes and is back a moment after", () => {
  under("plum, tea");
  expect(chips()).toEqual(["plum", "tea"]);
  focus("focusin");
  expect(chips()).toEqual([]);
  focus("focusout");
  expect(chips()).toEqual([]);
  vi.advanceTimersByTime(500);
  flushSync();
  expect(chips()).toEqual(["plum", "tea"]);
});

test("a chip is corrected: not that", () => {
  const page = under("plum");
  (page.querySelector("li button") as HTMLElement).click();
  flushSync();
  expect(page.textContent).toContain(taster.readBack.readAs("plum"));
  const not = [...page.querySelectorAll("button")].find((button) => button.textContent.trim() === taster.readBack.notThat)!;
  not.click();
  flushSync();
  expect(said).toEqual([["plum", "none"]]);
});

test("a chip is corrected: another word, which is offered only when it is typed", () => {
  const page = under("zonky");
  (page.querySelector("li button") as HTMLElement).click();
  flushSync();
  expect(page.querySelectorAll("form li")).toHaveLength(0);
  const search = page.querySelector("input[type=search]") as HTMLInputElement;
  search.value = "prune";
  search.dispatchEvent(new Event("input", { bubbles: true }));
  flushSync();
  (page.querySelector("form li button") as HTMLElement).click();
  flushSync();
  expect(said).toEqual([["zonky", "prune"]]);
});

test("once the key is open nothing can be corrected", () => {
  under("plum", { closed: true });
  expect((document.querySelector("li button") as HTMLButtonElement).disabled).toBe(true);
});

test("without a lexicon at hand the note is kept and nothing is shown", () => {
  under("plum", { reader: null });
  expect(chips()).toEqual([]);
});

test("a note of which nothing was read says so kindly", () => {
  const page = under("the of");
  expect(page.textContent).toContain(taster.readBack.nothing);
});

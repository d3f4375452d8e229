// @vitest-environment happy-dom
import { flushSync, mount, unmount } from "svelte";
import { afterEach, expect, test } from "vitest";
import type { Field, Value } from "../../wire/types";
import Answer from "./Answer.svelte";

const FIELD: Field = {
  id: "f",
  kind: "words",
  label: "The question",
  hint: "",
  low: 0,
  high: 10,
  step: 0.25,
  low_label: "none",
  high_label: "much",
  choices: ["first", "second"],
};

let shown: ReturnType<typeof mount> | null = null;
let given: Value[] = [];
afterEach(() => {
  if (shown) void unmount(shown);
  document.body.replaceChildren();
});

function show(changes: Partial<Field>, value: Value = null, cups = 3, places: string[] = []): HTMLElement {
  given = [];
  shown = mount(Answer, {
    target: document.body,
    props: { field: { ...FIELD, ...changes }, value, cups, places, onanswer: (answer: Value) => void given.push(answer) },
  });
  flushSync();
  return document.body;
}

function type(input: HTMLInputElement | HTMLTextAreaElement, text: string): void {
  input.value = text;
  input.dispatchEvent(new Event("input", { bubbles: true }));
  flushSync();
}

function press(page: HTMLElement, name: string): void {
  const all = [...page.querySelectorAll("button")];
  all.find((one) => (one.getAttribute("aria-label") ?? one.textContent ?? "").includes(name))?.click();
  flushSync();
}

test.each(["words", "text"] as const)("%s are taken as they are typed, and nothing is suggested before", (kind) => {
  const page = show({ kind });
  const area = page.querySelector("textarea")!;
  expect([area.placeholder, area.getAttribute("autocomplete"), area.getAttribute("spellcheck")]).toEqual(["", "off", "false"]);

  type(area, "fig & soot");
  area.dispatchEvent(new Event("blur"));

  expect(given).toEqual(["fig & soot"]);
});

test("points are taken where they lie on a step; others stay and are complained about", () => {
  const input = show({ kind: "points", low: 6 }).querySelector("input")!;

  type(input, "7,25");
  type(input, "7.3");

  expect(given).toEqual(["7.25"]);
  expect(input.getAttribute("aria-invalid")).toBe("true");
});

test("one of the choices is taken, and can be taken back", () => {
  const page = show({ kind: "choice" });
  page.querySelectorAll("input")[1]!.click();
  expect(given).toEqual(["second"]);

  void unmount(shown!);
  press(show({ kind: "choice" }, "second"), "Take back");
  expect(given).toEqual([null]);
});

test("cups are ticked and unticked, each cup of the sample having its own", () => {
  const page = show({ kind: "ticks" }, [3]);
  expect([...page.querySelectorAll("button")].map((one) => one.getAttribute("aria-pressed"))).toEqual(["false", "false", "true"]);

  press(page, "Cup 1");
  press(page, "Cup 3");

  expect(given).toEqual([[1, 3], []]);
});

test("a line says that it is not set, takes where the thumb stops, and can be unset", () => {
  const input = show({ kind: "line", step: 1 }).querySelector("input")!;
  expect(input.getAttribute("aria-valuetext")).toBe("not set; from none to much");

  for (const place of ["3", "5", "7"]) type(input, place);
  input.dispatchEvent(new Event("pointerup", { bubbles: true }));
  expect(given).toEqual([7]);

  void unmount(shown!);
  press(show({ kind: "line", step: 1 }, 7), "Take back");
  expect(given).toEqual([null]);
});

test("a colour is picked from a field that has places instead of names, and can be taken back", () => {
  const page = show({ kind: "colour" });
  const names = [...page.querySelectorAll("input")].map((one) => one.getAttribute("aria-label"));
  expect(new Set(names).size).toBe(64);
  expect(names.every((name) => /^(lightness \d of 5, hue \d+ of 12|without hue, lightness \d of 4 from dark)$/.test(name ?? ""))).toBe(true);

  page.querySelector<HTMLInputElement>('[aria-label="lightness 3 of 5, hue 2 of 12"]')!.click();
  expect(given).toHaveLength(1);

  const picked = given[0] ?? null;
  void unmount(shown!);
  press(show({ kind: "colour" }, picked), "Take back");
  expect(given).toEqual([null]);
});

test("cups that are not good are marked, and that all are good is one touch and an answer", () => {
  const page = show({ kind: "cups", high_label: "alike" }, null, 5);
  expect(page.textContent).toContain("not set");
  press(page, "Cup 3 is not alike");
  press(page, "All cups alike");
  expect(given).toEqual([[3], []]);

  void unmount(shown!);
  const marked = show({ kind: "cups", high_label: "alike" }, [3], 5);
  expect(marked.textContent).toContain("4 of 5 cups alike");
  press(marked, "Take back");
  expect(given).toEqual([null]);
});

test("a fault in one cup asks for every other cup, and none in any is one touch", () => {
  const page = show({ kind: "faults" }, { "3": 4 }, 5);
  expect(page.textContent).toContain("Smell and taste cups 1, 2, 4, 5 too");

  page.querySelectorAll<HTMLInputElement>('[aria-label="Cup 1"] input')[0]!.click();
  expect(given).toEqual([{ "1": 0, "3": 4 }]);
  press(page, "All others clean");
  expect(given.at(-1)).toEqual({ "1": 0, "2": 0, "3": 4, "4": 0, "5": 0 });

  void unmount(shown!);
  press(show({ kind: "faults" }, null, 5), "None in any cup");
  expect(given.at(-1)).toEqual({});
});

test("a marked cup asks for every other cup where the sheet wants all of them tried", () => {
  const page = show({ kind: "ticks", try_all: true, low_label: "", high_label: "" }, { "3": 1 }, 5);
  expect(page.textContent).toContain("Smell and taste cups 1, 2, 4, 5 too");

  page.querySelectorAll<HTMLInputElement>('[aria-label="Cup 1"] input')[0]!.click();
  press(page, "All others fine");
  expect(given).toEqual([{ "1": 0, "3": 1 }, { "1": 0, "2": 0, "3": 1, "4": 0, "5": 0 }]);

  void unmount(shown!);
  press(show({ kind: "ticks", try_all: true }, null, 5), "No cup at all");
  expect(given.at(-1)).toEqual({});
});

test("what a tried cup can be is called as the sheet calls it", () => {
  const page = show({ kind: "ticks", try_all: true, low_label: "sound", high_label: "defective" }, { "3": 1 }, 2);

  expect([...page.querySelectorAll('[aria-label="Cup 1"] label')].map((one) => one.textContent?.trim())).toEqual(["sound", "defective"]);
  expect(page.textContent).toContain("All others sound");
});

test("of a list all that apply are ticked, in the order of the list, until it is full", () => {
  const choices = ["one", "two", "three"];
  const page = show({ kind: "tags", choices, most: 2 }, ["three"]);
  page.querySelectorAll("input")[0]!.click();
  press(page, "None of these");
  expect(given).toEqual([["one", "three"], []]);

  void unmount(shown!);
  const full = show({ kind: "tags", choices, most: 2 }, ["one", "two"]);
  expect([...full.querySelectorAll("input")].map((one) => one.disabled)).toEqual([false, false, true]);
  expect(full.textContent).toContain("2 ticked, the most there can be");
});

const PLACES = ["591", "274", "836"];

test("places are put in an order one after the other", () => {
  const page = show({ kind: "rank", ties: true }, { "274": 1 }, 1, PLACES);
  expect([...page.querySelectorAll(".place")].map((one) => one.textContent)).toEqual(["591", "836"]);

  press(page, "836 as number 2");
  expect(given).toEqual([{ "274": 1, "836": 2 }]);

  void unmount(shown!);
  const whole = show({ kind: "rank", ties: true }, { "274": 1, "836": 2, "591": 3 }, 1, PLACES);
  press(whole, "591 beside the one above");
  press(whole, "Take 274 out");
  expect(given).toEqual([
    { "274": 1, "591": 2, "836": 2 },
    { "836": 1, "591": 2 },
  ]);
});

test("where no two may share a place there is no way to say so", () => {
  expect(show({ kind: "rank", ties: false }, { "274": 1, "836": 2 }, 1, PLACES).querySelector('[aria-label*="beside"]')).toBeNull();
});

test("the odd one is picked among the places of the table", () => {
  const page = show({ kind: "odd" }, null, 1, PLACES);
  page.querySelectorAll("input")[1]!.click();

  expect(given).toEqual(["274"]);
});

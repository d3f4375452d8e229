import { beforeEach, expect, test } from "vitest";
import { Problem } from "../wire/problem";
import type { Protocol } from "../wire/protocols";
import type { OwnSheet, Sheet } from "../wire/types";
import { OwnForms } from "./own_forms.svelte";

let kept: OwnSheet[];
let protocols: Protocol[];
const refusal = new Problem({ status: 422, title: "", detail: "sheet, line 3: The sheet has no title.", todo: "", where: { line: 3 } });

const api = {
  ownSheets: async () => [...kept],
  keepSheet: async (text: string) => {
    if (text === "bad") throw refusal;
    kept.push({ name: text, version: 1, text, kept: "" });
    return { name: text, title: text.toUpperCase(), version: 1 } as Sheet;
  },
  removeSheet: async (name: string) => void (kept = kept.filter((one) => one.name !== name)),
  protocols: async () => protocols,
  keepProtocol: async (text: string) => {
    const made = { name: text, title: text, version: 2, own: true, text } as Protocol;
    protocols.push(made);
    return made;
  },
  removeProtocol: async (name: string) => void (protocols = protocols.filter((one) => one.name !== name)),
};

beforeEach(() => {
  kept = [];
  protocols = [{ name: "cupping", own: false } as Protocol];
});

test("a sheet is kept from a file, listed, and put away", async () => {
  const forms = new OwnForms(api, "sheet");
  await forms.load();
  expect(forms.own).toEqual([]);

  expect(await forms.take(new File(["house"], "house.toml"))).toMatchObject({ name: "house", title: "HOUSE" });
  expect(forms.own?.map((one) => one.name)).toEqual(["house"]);

  expect(await forms.remove("house")).toBe(true);
  expect(forms.own).toEqual([]);
});

test("a refusal names its line, keeps nothing, and is gone with the next file", async () => {
  const forms = new OwnForms(api, "sheet");

  expect(await forms.take(new File(["bad"], "bad.toml"))).toBeNull();
  expect([forms.refused, forms.asking.problem?.where?.line]).toEqual(["bad.toml", 3]);
  expect(kept).toEqual([]);

  await forms.take(new File(["good"], "good.toml"));
  expect([forms.refused, forms.asking.problem]).toEqual(["", null]);
});

test("bytes that are no text are not sent", async () => {
  const forms = new OwnForms(api, "sheet");

  expect(await forms.take(new File([new Uint8Array([0xff, 0xfe, 0x00])], "photo.jpg"))).toBeNull();
  expect(forms.asking.problem?.where?.file).toBe("photo.jpg");
  expect(kept).toEqual([]);
});

test("of the protocols only one's own are listed", async () => {
  const forms = new OwnForms(api, "protocol");
  await forms.load();
  expect(forms.own).toEqual([]);

  await forms.take(new File(["mine"], "mine.toml"));
  expect(forms.own?.map((one) => one.name)).toEqual(["mine"]);
  await forms.remove("mine");
  expect(forms.own).toEqual([]);
});

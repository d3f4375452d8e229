import { expect, test } from "vitest";
import { Calls } from "../pour/calls.svelte";
import type { Cue } from "../wire/types";
import { saidToTaster, tasterCues } from "./calls";

const cue = (kind: Cue["kind"], place: string, number: number, due: number): Cue => ({
  kind,
  place,
  number,
  due,
  bowl: number - 1,
  earliest: due,
  latest: due,
  ends: due,
  person: null,
  done: false,
});

function world() {
  const heard: string[] = [];
  const kept = new Map<string, string>();
  const shelf = { getItem: (key: string) => kept.get(key) ?? null, setItem: (key: string, value: string) => void kept.set(key, value) };
  const calls = new Calls({ speak: (text) => void heard.push(text), vibrate: null }, shelf);
  return { heard, calls };
}

test("a place is called once for each act, when its first bowl is due", () => {
  const cues = [cue("break", "274", 1, 1_000), cue("break", "274", 2, 2_000), cue("break", "591", 1, 3_000), cue("taste", "274", 1, 4_000)];
  expect(tasterCues(cues).map(({ kind, place, due }) => [kind, place, due])).toEqual([
    ["break", "274", 1_000],
    ["break", "591", 3_000],
    ["taste", "274", 4_000],
  ]);
});

test("a taster is called to the first taste of a cup in its own second, and told its code digit by digit", () => {
  const { calls, heard } = world();
  calls.spoken = true;
  for (const now of [479_800, 480_050, 480_300]) calls.hear([cue("taste", "274", 1, 480_000)], now, saidToTaster);
  expect(heard).toEqual(["First taste 2 7 4"]);
});

test("a taster's phone is silent until somebody asks for calls", () => {
  const { calls, heard } = world();
  for (const now of [479_800, 480_050]) calls.hear([cue("taste", "274", 1, 480_000)], now, saidToTaster);
  expect(heard).toEqual([]);
});

import { beforeEach, describe, expect, it } from "vitest";
import { Calls } from "./calls.svelte";
import type { Cue } from "./clock";
import { runSheet } from "./clock";
import { clockOf, laidCalled } from "./laid.testing";

const cues = runSheet(laidCalled("eight by two"), clockOf(0));
const say = (cue: Cue) => `${cue.kind} ${cue.bowl}`;

function world() {
  const heard: string[] = [];
  const felt: number[][] = [];
  const kept = new Map<string, string>();
  const shelf = { getItem: (key: string) => kept.get(key) ?? null, setItem: (key: string, value: string) => void kept.set(key, value) };
  const voice = { speak: (text: string) => void heard.push(text), vibrate: (pattern: number[]) => void felt.push(pattern) };
  return { heard, felt, shelf, voice };
}

describe("calls", () => {
  let here: ReturnType<typeof world>;
  beforeEach(() => {
    here = world();
  });

  it("are silent until somebody asks for them", () => {
    const calls = new Calls(here.voice, here.shelf);
    calls.hear(cues, 14_900, say);
    calls.hear(cues, 15_100, say);
    expect([here.heard, here.felt]).toEqual([[], []]);
  });

  it("speak each act once, those that come due together in one breath", () => {
    const calls = new Calls(here.voice, here.shelf);
    calls.spoken = true;
    for (const now of [14_900, 15_000, 15_250, 15_500]) calls.hear(cues, now, say);
    expect(here.heard).toEqual(["pour 2. pour 3"]);
  });

  it("say nothing of what was due before the page was opened", () => {
    const calls = new Calls(here.voice, here.shelf);
    calls.spoken = true;
    calls.hear(cues, 241_000, say);
    expect(here.heard).toEqual([]);
  });

  it("are felt by kind of act", () => {
    const calls = new Calls(here.voice, here.shelf);
    calls.felt = true;
    calls.hear(cues, 239_900, say);
    calls.hear(cues, 240_100, say);
    expect(here.felt).toEqual([[120, 80, 120]]);
  });

  it("are kept on the device, and the tap itself says that they are on", () => {
    const calls = new Calls(here.voice, here.shelf);
    calls.spoken = true;
    calls.choose("on");
    expect(here.heard).toEqual(["on"]);
    expect(new Calls(here.voice, here.shelf).spoken).toBe(true);
  });

  it("are not offered where a device has no voice", () => {
    const calls = new Calls({ speak: null, vibrate: null }, here.shelf);
    expect([calls.canSpeak, calls.canVibrate, calls.spoken]).toEqual([false, false, false]);
  });
});

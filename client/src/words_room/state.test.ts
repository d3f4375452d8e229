import { describe, expect, it } from "vitest";
import { Problem } from "../wire/problem";
import type { OwnWord } from "../wire/types";
import type { ConceptView, KeptOwnWord, ListedConcept, WordMap } from "../wire/words";
import { nameOf, WordsState } from "./state.svelte";

const listed = (id: string): ListedConcept => ({ id, label: id, family: "fruit", own: false, forms: [] });
const clash = new Problem({ status: 409, title: "", detail: "'quince' already.", todo: "", where: null });

function world() {
  const own: KeptOwnWord[] = [];
  const asked: string[] = [];
  const api = {
    words: async () => [listed("plum"), listed("quince"), ...own.map((word) => listed(word.concept))],
    word: async (id: string) => ({ ...listed(id), kin: [] }) as unknown as ConceptView,
    wordMap: async (around = "") => {
      asked.push(around);
      return { points: [{ id: around }], stress: 0.1 } as unknown as WordMap;
    },
    ownWords: async () => [...own],
    addOwnWord: async (word: OwnWord) => {
      if (word.label === "quince") throw clash;
      const kept = { ...word, id: `w${own.length}`, concept: word.concept || word.label, added: "", why_not: "" };
      own.push(kept);
      return kept;
    },
    removeOwnWord: async (id: string) => void own.splice(own.findIndex((word) => word.id === id), 1),
    importOwnWords: async () => ({ added: 2, known: 1 }),
  };
  return { own, asked, room: new WordsState(api) };
}

describe("the room of words", () => {
  it("opens with all words on the map", async () => {
    const { room, asked } = world();
    await room.load("");
    expect(room.concepts.map((concept) => concept.id)).toEqual(["plum", "quince"]);
    expect(asked).toEqual([""]);
    expect(room.chosen).toBeNull();
  });

  it("draws what is around a word that is looked up, and all again on demand without asking twice", async () => {
    const { room, asked } = world();
    await room.load("");
    await room.choose("quince");
    expect(room.span).toBe("around");
    expect(room.map?.points[0]?.id).toBe("quince");
    await room.show("whole");
    expect(room.map?.points[0]?.id).toBe("");
    expect(asked).toEqual(["", "quince"]);
  });

  it("opens on the word of its address", async () => {
    const { room } = world();
    await room.load("plum");
    expect(room.chosen?.id).toBe("plum");
  });

  it("adds a new word under another, with its other forms, and lists it", async () => {
    const { room, own } = world();
    await room.load("");
    room.draft = { kind: "concept", word: " quince soda ", forms: "quince pop, , soda of quince", concept: "" };
    expect(room.ready).toBe(false);
    room.draft.concept = "quince";
    expect(room.ready).toBe(true);

    expect(await room.add()).toBe("quince soda");

    expect(own[0]).toMatchObject({ label: "quince soda", parents: ["quince"], forms: ["quince pop", "soda of quince"] });
    expect(room.own).toHaveLength(1);
    expect(room.draft.word).toBe("");
    expect(room.concepts.map((concept) => concept.id)).toContain("quince soda");
  });

  it("adds a form to a word that exists", async () => {
    const { room, own } = world();
    room.draft = { kind: "form", word: "membrillo", forms: "ignored", concept: "quince" };
    expect(await room.add()).toBe("membrillo");
    expect(own[0]).toMatchObject({ concept: "quince", label: "", parents: [], forms: ["membrillo"] });
  });

  it("keeps what was typed when it is refused, and says why", async () => {
    const { room } = world();
    room.draft = { kind: "concept", word: "quince", forms: "", concept: "plum" };
    expect(await room.add()).toBe("");
    expect(room.saving.problem?.what).toContain("'quince' already");
    expect(room.draft.word).toBe("quince");
  });

  it("forgets a word that is removed, on the map too", async () => {
    const { room, asked } = world();
    await room.load("");
    room.draft = { kind: "concept", word: "soda", forms: "", concept: "plum" };
    await room.add();
    await room.choose("soda");

    expect(await room.remove(room.own![0]!)).toBe(true);

    expect(room.own).toEqual([]);
    expect(room.chosen).toBeNull();
    expect(asked.at(-1)).toBe("");
  });

  it("says how many words of a file are new", async () => {
    const { room } = world();
    expect(await room.take(new File(["[[form]]"], "words.toml"))).toEqual({ added: 2, known: 1 });
  });

  it("calls an own word by its label, or by the form that was added", () => {
    expect(nameOf({ concept: "quince", label: "", parents: [], forms: ["membrillo"] })).toBe("membrillo");
    expect(nameOf({ concept: "x", label: "quince soda", parents: ["quince"], forms: [] })).toBe("quince soda");
  });
});

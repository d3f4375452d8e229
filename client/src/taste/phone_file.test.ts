import { expect, it } from "vitest";
import { Problem } from "../wire/problem";
import type { TakenIn } from "../wire/taken_in";
import { tasteDeskWords } from "../words/taste_desk_en";
import { PhoneFileState } from "./phone_file.svelte";

const file = new File(["{}"], "ada.json");
const came = (changes: Partial<TakenIn> = {}): TakenIn => ({
  seat_name: "Ada",
  kept: 12,
  new: 3,
  late: false,
  refused: [],
  ...changes,
});

it("takes a file in and says whether it brought anything", async () => {
  const asked: unknown[] = [];
  const answers = [came(), came({ new: 0 })];
  const takeNotesFile = async (id: string, taken: File) => {
    asked.push(id, taken.name);
    return answers.shift() as TakenIn;
  };
  const state = new PhoneFileState({ takeNotesFile }, "t1");
  expect(await state.take(file)).toBe(true);
  expect(state.taken?.kept).toBe(12);
  expect(await state.take(file)).toBe(false);
  expect(asked).toEqual(["t1", "ada.json", "t1", "ada.json"]);
});

it("shows a refusal and forgets what came before", async () => {
  let refuse = false;
  const takeNotesFile = async () => {
    if (refuse) throw new Problem({ status: 422, title: "", detail: "Another table's.", todo: "", where: null });
    return came();
  };
  const state = new PhoneFileState({ takeNotesFile }, "t1");
  await state.take(file);
  refuse = true;
  expect(await state.take(file)).toBe(false);
  expect(state.taken).toBeNull();
  expect(state.asking.problem?.what).toBe("Another table's.");
});

it("says what came, and that late notes do not count", () => {
  expect(tasteDeskWords.file.came(came())).toBe("Ada: 12\u00a0notes are kept, 3 of them are new.");
  expect(tasteDeskWords.file.came(came({ kept: 1, new: 0 }))).toBe("Ada: 1\u00a0note is kept, and was here already.");
});

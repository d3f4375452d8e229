import { expect, test } from "vitest";
import { compileWhenIdle, type Idle } from "./idle";
import { lexiconFrom, type LexiconData } from "./lexicon";
import data from "./lexicon.json";
import { readNote } from "./reading";

const fresh = () => lexiconFrom(data as unknown as LexiconData);
const NOTE = "not too sweet, a hint of poched quince; manzana verde, xyzzy";

test("a lexicon is compiled in many short turns and then reads as one that was compiled at once", async () => {
  const lexicon = fresh();
  let turns = 0;
  const busy: Idle = (work) => {
    turns += 1;
    queueMicrotask(() => work(() => 0));
  };

  await compileWhenIdle(lexicon, busy);

  expect(turns).toBeGreaterThan(100);
  expect(readNote(NOTE, lexicon)).toEqual(readNote(NOTE, fresh()));
});

test("a phone with time to spare needs one turn a language", async () => {
  let turns = 0;
  const spare: Idle = (work) => {
    turns += 1;
    work(() => 50);
  };

  await compileWhenIdle(fresh(), spare);

  expect(turns).toBe(3);
});

test("a note that does not wait for the turns is read all the same", async () => {
  const lexicon = fresh();
  let release = (): void => undefined;
  const resting = new Promise<void>((resolve) => (release = resolve));
  let turns = 0;
  const compiling = compileWhenIdle(lexicon, (work) => {
    turns += 1;
    if (turns === 1) work(() => 0);
    else void resting.then(() => work(() => 0));
  });

  expect(readNote(NOTE, lexicon)).toEqual(readNote(NOTE, fresh()));

  release();
  await compiling;
  expect(turns).toBeLessThan(8);
  expect(readNote(NOTE, lexicon)).toEqual(readNote(NOTE, fresh()));
});

import { beforeEach, expect, test } from "vitest";
import { Slow } from "./slow";

let given: string[];
let tasks: Map<number, () => void>;
let slow: Slow<string>;

beforeEach(() => {
  given = [];
  tasks = new Map();
  let next = 0;
  const timers = {
    set: (task: () => void) => {
      tasks.set(++next, task);
      return next;
    },
    clear: (id: number) => void tasks.delete(id),
  };
  slow = new Slow<string>((text) => given.push(text), 800, timers);
});

test("only the last text of a burst is handed on, after the pause", () => {
  for (const text of ["p", "pl", "plum"]) slow.take(text);

  expect(given).toEqual([]);
  expect(tasks.size).toBe(1);
  [...tasks.values()].forEach((task) => task());
  expect(given).toEqual(["plum"]);
});

test("leaving hands on at once and only once", () => {
  slow.take("plum");
  slow.flush();
  slow.flush();

  expect(given).toEqual(["plum"]);
  expect(tasks.size).toBe(0);
});

test("an emptied text is handed on too", () => {
  slow.take("plum");
  slow.flush();
  slow.take("");
  slow.flush();

  expect(given).toEqual(["plum", ""]);
});

test("what is taken back before the pause is over is never handed on", () => {
  slow.take("plum");
  slow.drop();
  slow.flush();

  expect(given).toEqual([]);
  expect(tasks.size).toBe(0);
});

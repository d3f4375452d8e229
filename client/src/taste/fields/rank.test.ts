import { describe, expect, test } from "vitest";
import { added, groupsOf, moved, orderOf, taken, tied } from "./rank";

const ABC = [["a"], ["b"], ["c"]];

test("an order survives being kept, with shared places", () => {
  const groups = [["b"], ["a", "c"]];

  expect(orderOf(groups)).toEqual({ b: 1, a: 2, c: 2 });
  expect(groupsOf({ a: 2, b: 1, c: 2 })).toEqual(groups);
});

test("no place in it is no order", () => {
  expect(orderOf([])).toBeNull();
  expect(orderOf(taken([["a"]], "a"))).toBeNull();
});

describe("a place", () => {
  test("is added as the last, and never twice", () => {
    expect(added(added(added([], "a"), "b"), "a")).toEqual([["b"], ["a"]]);
  });

  test("goes up and down past its neighbour, and stays at the ends", () => {
    expect(moved(ABC, "c", -1)).toEqual([["a"], ["c"], ["b"]]);
    expect(moved(ABC, "a", 1)).toEqual([["b"], ["a"], ["c"]]);
    expect(moved(ABC, "a", -1)).toEqual(ABC);
    expect(moved(ABC, "c", 1)).toEqual(ABC);
  });

  test("is tied with the one above, and comes out of it again on either side", () => {
    const shared = tied(ABC, "b");
    expect(shared).toEqual([["a", "b"], ["c"]]);

    expect(moved(shared, "b", -1)).toEqual([["b"], ["a"], ["c"]]);
    expect(moved(shared, "b", 1)).toEqual([["a"], ["b"], ["c"]]);
    expect(tied(ABC, "a")).toEqual(ABC);
  });

  test("that is not in the order moves nothing", () => {
    expect(moved(ABC, "x", 1)).toEqual(ABC);
  });
});

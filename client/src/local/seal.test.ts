import { expect, test } from "vitest";
import shared from "../../../tests/contract/seal_cases.json";
import type { OpenedKey } from "../wire/types";
import { commitmentOf, sealedText, sealHolds } from "./seal";

function keyOf(one: (typeof shared.cases)[number]): OpenedKey {
  return { pairs: one.pairs as [string, string][], nonce: one.nonce };
}

for (const one of shared.cases) {
  test(`text and commitment agree with the shared case: ${one.name}`, () => {
    expect(sealedText(keyOf(one))).toBe(one.text);
    expect(commitmentOf(keyOf(one))).toBe(one.commitment);
    expect(sealHolds(keyOf(one), one.commitment)).toBe(true);
  });
}

test("the order in which the pairs arrive does not matter", () => {
  const key = keyOf(shared.cases[0]!);

  expect(sealHolds({ ...key, pairs: [...key.pairs].reverse() }, shared.cases[0]!.commitment)).toBe(true);
});

test("exchanged coffees, another nonce and a lost pair break the seal", () => {
  const { commitment } = shared.cases[0]!;
  const key = keyOf(shared.cases[0]!);
  const [[first, a], [second, b]] = key.pairs as [[string, string], [string, string]];

  expect(sealHolds({ ...key, pairs: [[first, b], [second, a]] }, commitment)).toBe(false);
  expect(sealHolds({ ...key, nonce: "0".repeat(64) }, commitment)).toBe(false);
  expect(sealHolds({ ...key, pairs: [[first, a]] }, commitment)).toBe(false);
});

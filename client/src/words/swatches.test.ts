import { expect, test } from "vitest";
import cases from "../../../tests/contract/swatch_cases.json";
import { hexOf, sameColour, swatches } from "./swatches";

test("the field on the phone is the field of the server, colour by colour", () => {
  const field = swatches();

  expect(field.length).toBe(cases.field.length);
  field.forEach(({ colour }, index) => {
    const expected = cases.field[index]!;
    expect(colour.l).toBeCloseTo(expected.colour.l, 9);
    expect(colour.a).toBeCloseTo(expected.colour.a, 9);
    expect(colour.b).toBeCloseTo(expected.colour.b, 9);
    expect(hexOf(colour)).toBe(expected.hex);
  });
});

test("colours no screen can show are brought to the same shown colour on both sides", () => {
  for (const { colour, hex } of cases.hex) expect(hexOf(colour)).toBe(hex);
});

test("no two swatches are the same pick", () => {
  const field = swatches();
  const pairs = field.flatMap((one, i) => field.slice(i + 1).map((other) => sameColour(one.colour, other.colour)));

  expect(pairs.some((same) => same)).toBe(false);
});

import { afterEach, expect, test, vi } from "vitest";
import { newDevice, newId } from "./ids";

const FORM = /^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/;

afterEach(() => vi.unstubAllGlobals());

test("the published example of a version 7 UUID comes out to the digit", () => {
  // RFC 9562, appendix A.6 (values from memory): 22 Feb 2022 14:22:22.00 GMT-05:00
  const chance = [0, 0, 0, 0, 0, 0, 0x0c, 0xc3, 0x18, 0xc4, 0xdc, 0x0c, 0x0c, 0x07, 0x39, 0x8f];

  const id = newId(1645557742000, (bytes) => bytes.set(chance));

  expect(id).toBe("017f22e2-79b0-7cc3-98c4-dc0c0c07398f");
});

test("ids of later milliseconds sort later", () => {
  const ids = [0, 1, 255, 256, 65_536, 1_700_000_000_000, 1_700_000_000_001, 2 ** 48 - 1].map((now) => newId(now));

  expect([...ids].sort()).toEqual(ids);
});

test("no clock is too wrong for an id", () => {
  for (const now of [-1, 0, 1.5, 2 ** 48, 2 ** 53, Number.MAX_VALUE]) expect(newId(now)).toMatch(FORM);
});

test("ten thousand ids of one millisecond all differ", () => {
  expect(new Set(Array.from({ length: 10_000 }, () => newId(5))).size).toBe(10_000);
});

test("ids and devices are made where crypto.randomUUID is missing, as on plain http", () => {
  const { getRandomValues } = crypto;
  vi.stubGlobal("crypto", { getRandomValues: getRandomValues.bind(crypto) });

  expect(newId()).toMatch(FORM);
  expect(newDevice()).toMatch(/^[0-9a-f]{16}$/);
  expect(newDevice()).not.toBe(newDevice());
});

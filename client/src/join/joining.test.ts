// @vitest-environment happy-dom
import { expect, test } from "vitest";
import { PhoneDb } from "../local/db";
import { Notebook } from "../local/notebook";
import { aTable, FakeServer, problem, SEAT, TOKEN } from "../local/server.testing";
import { Problem } from "../wire/problem";
import { Joining, tidyCode } from "./joining.svelte";

let names = 0;

function setUp(join = async () => ({ token: TOKEN, seat: SEAT, table: aTable() })) {
  const database = `joining-test-${++names}`;
  const server = new FakeServer();
  const asked: [string, string][] = [];
  const api = { sitDown: (code: string, name: string) => (asked.push([code, name]), join()) };
  const book = () => new Notebook({ fetch: server.fetch, schedule: () => () => undefined }, new PhoneDb(database));
  return { joining: new Joining(api, "", book), asked, book };
}

test("a seat is kept on the device, so that it opens again without the server", async () => {
  const { joining, asked, book } = setUp();
  joining.code = " ab3-k7q ";
  joining.name = " Anna ";

  expect(await joining.sit()).toBe(true);

  expect(asked).toEqual([["AB3K7Q", "Anna"]]);
  expect((await book().remembered())[0]).toMatchObject({ seat: SEAT.id, name: "Anna", table: "Morning" });
});

test("without a code or a name nothing is asked, and each is pointed at", async () => {
  const { joining, asked } = setUp();

  expect(await joining.sit()).toBe(false);

  expect(asked).toEqual([]);
  expect(joining.codeError).not.toBe("");
  expect(joining.nameError).not.toBe("");
});

test("a refusal is shown in the server's words and keeps what was typed", async () => {
  const body = (await problem(404, "There is no table with this code.").json()) as ConstructorParameters<typeof Problem>[0];
  const { joining, book } = setUp(async () => {
    throw new Problem(body);
  });
  joining.code = "ABCDEF";
  joining.name = "Anna";

  expect(await joining.sit()).toBe(false);

  expect(joining.asking.problem?.detail).toContain("no table");
  expect([joining.code, joining.name]).toEqual(["ABCDEF", "Anna"]);
  expect(await book().remembered()).toEqual([]);
});

test("a code is read whatever stands between its letters", () => {
  expect(tidyCode("ab3 k7q")).toBe("AB3K7Q");
  expect(tidyCode("  ")).toBe("");
});

import { expect, test } from "vitest";
import { isNewer, ownScript } from "./newer";

const page = (script: string) => `<!doctype html><script type="module" src="${script}"></script><div id="app"></div>`;
const answering = (text: string, status = 200) => async () => new Response(text, { status });

test("a page that starts another script is newer, the same script is not", async () => {
  expect(await isNewer("/assets/main-old.js", answering(page("/assets/main-new.js")))).toBe(true);
  expect(await isNewer("/assets/main-old.js", answering(page("/assets/main-old.js")))).toBe(false);
});

test("neither silence, nor a failure, nor somebody else's page says that anything is newer", async () => {
  const silent = async () => Promise.reject(new TypeError("Failed to fetch"));
  expect(await isNewer("/assets/main-old.js", silent)).toBe(false);
  expect(await isNewer("/assets/main-old.js", answering(page("/assets/main-new.js"), 503))).toBe(false);
  expect(await isNewer("/assets/main-old.js", answering("<h1>Welcome to the hotel</h1>"))).toBe(false);
});

test("the server is asked past the browser's cache", async () => {
  const asked: RequestInit[] = [];
  await isNewer("/a.js", async (_, init) => (asked.push(init), new Response(page("/a.js"))));

  expect(asked[0]?.cache).toBe("no-store");
});

test("the own script is the one the page has started", () => {
  const script = document.createElement("script");
  script.setAttribute("src", "./assets/main-1.js");

  expect(ownScript({ baseURI: "http://table:8000/", querySelector: () => script })).toBe("/assets/main-1.js");
  expect(ownScript({ baseURI: "http://table:8000/", querySelector: () => null })).toBe("/");
});

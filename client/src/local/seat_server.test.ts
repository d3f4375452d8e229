import { describe, expect, test } from "vitest";
import { local } from "../words/local";
import { type Fetch, SeatServer } from "./seat_server";
import { FakeServer, json, problem, SEAT, TOKEN } from "./server.testing";

function answering(response: () => Response | Promise<Response>): SeatServer {
  return new SeatServer(async () => response(), TOKEN);
}

test("a request carries the token, JSON, and no way to be led elsewhere", async () => {
  const seen: RequestInit[] = [];
  const fetcher: Fetch = async (_, init) => {
    seen.push(init ?? {});
    return json(200, { kept: [], sequence: 0 });
  };

  await new SeatServer(fetcher, "secret").post([]);

  expect(seen[0]).toMatchObject({ method: "POST", redirect: "error", cache: "no-store", body: '{"notes":[]}' });
  expect(seen[0]?.headers).toEqual({ Authorization: "Bearer secret", "Content-Type": "application/json" });
});

test("an answer in the right form is taken", async () => {
  const server = new FakeServer();

  const reply = await new SeatServer(server.fetch, TOKEN).view(0);

  expect(reply).toMatchObject({ kind: "ok", value: { seat: SEAT } });
  expect(server.requests).toEqual(["GET /api/seat?after=0"]);
});

describe("a refusal of what was sent", () => {
  for (const status of [400, 404, 409, 413, 422]) {
    test(`is ${status} with the server's sentence`, async () => {
      expect(await answering(() => problem(status, "No such place.")).post([])).toEqual({
        kind: "refused",
        sentence: "No such place.",
      });
    });
  }

  test("may come without a sentence", async () => {
    const reply = await answering(() => new Response("<h1>Too large</h1>", { status: 413 })).post([]);

    expect(reply).toEqual({ kind: "refused", sentence: local.oddAnswer(413) });
  });
});

test("a seat that the server no longer knows is a stranger", async () => {
  const reply = await answering(() => problem(401, "This device holds no seat.")).view(0);

  expect(reply).toEqual({ kind: "stranger", sentence: "This device holds no seat." });
});

describe("nothing is decided", () => {
  const page = "<html>Welcome to the hotel</html>";

  test("by a page that is not the program's", async () => {
    for (const status of [200, 302, 401, 403, 404, 511]) {
      const reply = await answering(() => new Response(page, { status })).post([]);
      expect(reply.kind, String(status)).toBe("later");
    }
  });

  test("by JSON of another form", async () => {
    for (const body of [null, [], {}, { kept: "all" }, { kept: [1] }, { kept: [null] }]) {
      expect((await answering(() => json(200, body)).post([])).kind).toBe("later");
      expect((await answering(() => json(200, body)).view(0)).kind).toBe("later");
    }
  });

  test("by a refusal that is not about the notes", async () => {
    for (const status of [403, 408, 425, 429]) {
      expect((await answering(() => problem(status, "Not now.")).post([])).kind, String(status)).toBe("later");
    }
  });

  test("by a fault of the server, which is told apart", async () => {
    expect(await answering(() => problem(500, "Broken.")).post([])).toEqual({
      kind: "later",
      sentence: "Broken.",
      fault: true,
    });
  });

  test("by a network that fails, also in the middle of the answer", async () => {
    const torn = { status: 200, ok: true, text: () => Promise.reject(new TypeError("torn")) } as unknown as Response;

    for (const server of [answering(() => Promise.reject(new TypeError("no network"))), answering(() => torn)]) {
      expect(await server.post([])).toEqual({ kind: "later", sentence: local.unreachable, fault: false });
    }
  });

  test("by a server that never answers", async () => {
    const hangs: Fetch = (_, init) =>
      new Promise((_, reject) => init?.signal?.addEventListener("abort", () => reject(new Error("aborted"))));

    expect((await new SeatServer(hangs, TOKEN, 5).post([])).kind).toBe("later");
  });
});

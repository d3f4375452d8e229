import { expect, it } from "vitest";
import { Api } from "./api";

it("asks for a size with its numbers in the address", async () => {
  const sent: string[] = [];
  const api = new Api(async (url) => {
    sent.push(url);
    return Response.json({ sentences: ["53 tasters"] });
  });
  expect((await api.size("duo-trio/result", { right: 15, of: 30 })).sentences).toEqual(["53 tasters"]);
  expect(sent).toEqual(["/api/size/duo-trio/result?right=15&of=30"]);
});

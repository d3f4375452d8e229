/*
 * Whether the server has a newer client than this page. The page may be kept for half a day, so that it opens
 * without the server; after an update of the program it would go on as the old one.
 */

export type Ask = (path: string, init: RequestInit) => Promise<Response>;

/** The server's page names the script it starts; another name is another client. No answer says nothing. */
export async function isNewer(script: string, ask: Ask = (path, init) => fetch(path, init)): Promise<boolean> {
  try {
    const answer = await ask("/", { cache: "no-store", credentials: "same-origin" });
    const page = await answer.text();
    // Only a page of our own kind counts: a hotel's sign-in page names no script of ours either.
    return answer.ok && page.includes('id="app"') && !page.includes(script);
  } catch {
    return false;
  }
}

/** The path of the script that this page has started. */
export function ownScript(page: Pick<Document, "querySelector" | "baseURI">): string {
  const script = page.querySelector("script[type=module]")?.getAttribute("src") ?? "";
  return new URL(script, page.baseURI).pathname;
}

/* Addresses are hashes, so that any of them opens from the one cached page, with the server away. */
import { createSubscriber } from "svelte/reactivity";

const PATTERNS = {
  tables: "",
  coffees: "coffees",
  words: "words",
  word: "words/:id",
  planNew: "plan/new",
  plan: "plan/:id",
  pour: "pour/:id",
  taste: "taste/:id",
  paper: "paper/:id",
  reveal: "reveal/:id",
  season: "season",
  analyse: "analyse/:id",
  report: "report/:id",
  enter: "enter",
  join: "join",
  joinCode: "join/:id",
  seat: "seat",
  seatReveal: "seat/reveal",
} as const;

export type RouteName = keyof typeof PATTERNS | "unknown";

/** Where the address points; `id` is the table (or the join code), empty where there is none. */
export interface Route {
  name: RouteName;
  id: string;
}

function matched(pattern: string, path: string): string | null {
  if (!pattern.endsWith(":id")) return pattern === path ? "" : null;
  const head = pattern.slice(0, -":id".length);
  const id = path.slice(head.length);
  return path.startsWith(head) && id !== "" && !id.includes("/") ? decoded(id) : null;
}

function decoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text; // a stray % typed by hand
  }
}

/** The route of a hash such as "#/pour/abc". Fixed words win over ids: "plan/new" is no table. */
export function routeOf(hash: string): Route {
  const path = hash.replace(/^#?\/?/, "").replace(/\/$/, "").split("?")[0] ?? "";
  for (const [name, pattern] of Object.entries(PATTERNS)) {
    const id = matched(pattern, path);
    if (id !== null) return { name: name as RouteName, id };
  }
  return { name: "unknown", id: "" };
}

/** The hash of a route, for `href`. */
export function hashOf(name: Exclude<RouteName, "unknown">, id = ""): string {
  return `#/${PATTERNS[name].replace(":id", encodeURIComponent(id))}`;
}

const onHashChange = createSubscriber((update) => {
  window.addEventListener("hashchange", update);
  return () => window.removeEventListener("hashchange", update);
});

/** The present route; reading it in markup or an effect follows the address. */
export function currentRoute(): Route {
  onHashChange();
  return routeOf(window.location.hash);
}

export function goTo(name: Exclude<RouteName, "unknown">, id = ""): void {
  window.location.hash = hashOf(name, id);
}

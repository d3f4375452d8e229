/* Taking a seat on the desk's own machine: the same notebook as on a phone. */
import { Notebook } from "../local/notebook";
import type { Joined } from "../wire/types";

/** Put the seat into this browser's notebook; the taster's screen opens it from there. */
export async function sitHere(joined: Joined): Promise<void> {
  const notebook = new Notebook();
  await notebook.open(joined.seat.id, joined.token, { table: joined.table, seat: joined.seat });
  notebook.close();
}

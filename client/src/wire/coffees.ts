/* Coffees, and what becomes of a file of them. */

/** `roast_date` as 2026-11-25. */
export interface Coffee {
  id: string;
  name: string;
  roaster: string;
  origin: string;
  process: string;
  variety: string;
  roast_date: string | null;
  published_notes: string;
  grams_left: number | null;
}

export type NewCoffee = Omit<Coffee, "id">;

export interface RefusedLine {
  line: number;
  column: string;
  message: string;
}

export interface CoffeeImport {
  added: Coffee[];
  refused: RefusedLine[];
  /** headings of columns that no coffee has a field for */
  unused: string[];
}

/* Whether this device shows ounces and Fahrenheit beside grams and Celsius. */
const KEY = "cupwright.imperial";

interface Shelf {
  getItem: (key: string) => string | null;
  setItem: (key: string, value: string) => void;
}

export class Imperial {
  #on = $state(false);
  #shelf: Shelf | null;

  /** Without a shelf, as where storing is forbidden, the wish lasts as long as the page. */
  constructor(shelf: Shelf | null) {
    this.#shelf = shelf;
    this.#on = shelf?.getItem(KEY) === "yes";
  }

  get on(): boolean {
    return this.#on;
  }

  set on(wanted: boolean) {
    this.#on = wanted;
    this.#shelf?.setItem(KEY, wanted ? "yes" : "no");
  }
}

function shelf(): Shelf | null {
  try {
    return localStorage;
  } catch {
    return null;
  }
}

export const imperial = new Imperial(shelf());

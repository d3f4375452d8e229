/* Short word that something was done. What went wrong is never a toast: it stays on the page. */
const SHOWN_MS = 5000;

export interface Said {
  id: number;
  text: string;
}

class Toasts {
  said = $state<Said[]>([]);
  #next = 1;

  say(text: string): void {
    const id = this.#next++;
    this.said = [...this.said, { id, text }];
    setTimeout(() => this.dismiss(id), SHOWN_MS);
  }

  dismiss(id: number): void {
    this.said = this.said.filter((one) => one.id !== id);
  }
}

export const toasts = new Toasts();

/* Sizes: what is asked, and the sentences that come first in every answer. */

export type SizeNumbers = Record<string, number>;

export interface SizeAnswer {
  sentences: string[];
}

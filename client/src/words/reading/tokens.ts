/* Cutting a note into words, each with its place in the text; as core/words/tokens.py does. */

// A word: letters and digits, held together by apostrophes, soft hyphens, combining marks; also &, w/ and w/o.
const WORD =
  /&|[wW]\/[oO]?(?![\p{L}\p{N}])|[\p{L}\p{N}]+(?:[\u0300-\u036f\u00ad'\u2019\u02bc]+[\p{L}\p{N}]+)*[\u0300-\u036f\u00ad]*/uy;
const BEGINNING = /[&\p{L}\p{N}]/gu;
// Between two words of one phrase there may be only spaces and quotation marks, or one hyphen without spaces.
const JOINS = /^(?:[ \t\u00a0'"\u2018\u2019\u201c\u201d]*|[-\u2010\u2011])$/;
const LINKS = /^[ \t]*[/+][ \t]*$/;
const LEADS_ON = /^[ \t]*[:=\u2013\u2014-]+[ \t]*$/;
const STOPS = /[.!;\r\n\u2026\u3002]/;
const QUESTION = /[?\uff1f\u061f]/;
// An address of a page names no tastes, whatever words it is made of.
const ADDRESS = /(?:https?:\/\/|www\.)[^ \t\r\n]+/gi;
const DROPPED = /[\u0300-\u036f\u00ad]/g;
const APOSTROPHES = /[\u2019\u02bc]/g;
// eslint-disable-next-line no-control-regex -- the whole of ASCII
const ASCII = /^[\x00-\x7f]*$/;

/* What stands between two words: nothing that parts them, a sign for and, a colon or dash, another pause, a sentence's end. */
export const JOINED = "";
export const LINK = "/";
export const COLON = ":";
export const PAUSE = ",";
export const STOP = ".";
export type Gap = "" | "/" | ":" | "," | ".";

/** A word as it stands, `text.slice(start, end)`, folded in `word`; what parts it from the last; whether a ? follows. */
export interface Token {
  word: string;
  start: number;
  end: number;
  gap: Gap;
  asked: boolean;
}

/** A word without case, accents, width or kind of apostrophe: what two spellings are compared by. */
export function fold(word: string): string {
  if (ASCII.test(word)) return word === "&" ? "and" : word.toLowerCase();
  const flat = word.replace(APOSTROPHES, "'").normalize("NFKD");
  return flat.replace(DROPPED, "").toLowerCase().replaceAll("ß", "ss");
}

/** The words of a text in order. */
export function tokens(written: string): Token[] {
  const text = withoutAddresses(written);
  const found: Token[] = [];
  let last: Token | undefined;
  let end = 0;
  for (let start = beginning(text, 0); start >= 0; start = beginning(text, end)) {
    const between = text.slice(end, start);
    if (last) last.asked = between !== " " && QUESTION.test(between);
    end = ending(text, start);
    last = { word: fold(text.slice(start, end)), start, end, gap: gapOf(between), asked: false };
    found.push(last);
  }
  if (last) last.asked = QUESTION.test(text.slice(end));
  return found;
}

/* Both ask only whether there is a match, and take the place from it: a list for each word would be made for nothing. */

/** Where the next word starts, or -1. */
function beginning(text: string, from: number): number {
  BEGINNING.lastIndex = from;
  if (!BEGINNING.test(text)) return -1;
  const at = BEGINNING.lastIndex - 1;
  const half = text.charCodeAt(at);
  return half >= 0xdc00 && half <= 0xdfff ? at - 1 : at;
}

/** Where the word ends that starts at a place. */
function ending(text: string, start: number): number {
  WORD.lastIndex = start;
  WORD.test(text);
  return WORD.lastIndex;
}

/** The text with spaces for every address, so that places stay. */
function withoutAddresses(text: string): string {
  if (!text.includes("://") && !text.includes("www.")) return text;
  return text.replace(ADDRESS, (address) => " ".repeat(address.length));
}

function gapOf(between: string): Gap {
  if (between === " " || JOINS.test(between)) return JOINED;
  if (LINKS.test(between)) return LINK;
  if (LEADS_ON.test(between)) return COLON;
  return STOPS.test(between) || QUESTION.test(between) ? STOP : PAUSE;
}

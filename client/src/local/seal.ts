/*
 * The seal, checked on the taster's own device: docs/methods/seal.md. Hashing is a library's, because
 * crypto.subtle is missing on plain http; tests/contract/seal_cases.json is run against server and client.
 */
import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";
import type { OpenedKey } from "../wire/types";
import { compareText } from "./stamp";

const FORM = 1;

/** What the commitment is the digest of: canonical JSON of nonce, pairs by code, and the number of the form. */
export function sealedText(key: OpenedKey): string {
  const pairs = [...key.pairs].sort(([a], [b]) => compareText(a, b));
  return JSON.stringify({ nonce: key.nonce, pairs, seal: FORM });
}

/** SHA-256 of the sealed text in UTF-8, as 64 digits. */
export function commitmentOf(key: OpenedKey): string {
  return bytesToHex(sha256(utf8ToBytes(sealedText(key))));
}

/** Whether an opened key is the one that was promised before the first sip. */
export function sealHolds(key: OpenedKey, promised: string): boolean {
  return commitmentOf(key) === promised;
}

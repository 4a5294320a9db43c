import { sha256 as digest } from "@noble/hashes/sha2";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils";

/** SHA-256 of a text in UTF-8, as 64 hexadecimal digits. Source: FIPS 180-4. */
export function sha256(text: string): string {
  return bytesToHex(digest(utf8ToBytes(text)));
}

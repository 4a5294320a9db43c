import { gzipSync } from "node:zlib";
import { describe, expect, it } from "vitest";
import { fileText } from "../../src/formats/fileText.js";
import { refusal } from "../support/refusal.js";

const text = '{"name": "grün"}\n';
/** What a reader of UTF-8 makes of bytes. */
const asUtf8 = (bytes: Uint8Array) => new TextDecoder("utf-8", { ignoreBOM: true }).decode(bytes);
const utf16 = Buffer.from(`\uFEFF${text}`, "utf16le");

describe("the text of a file", () => {
  it("is taken as it stands, but for the mark in front of it", () => {
    expect(fileText(text)).toBe(text);
    expect(fileText(`\uFEFF${text}`)).toBe(text);
    expect(fileText("")).toBe("");
  });

  it.each([
    ["UTF-16, little end first", utf16, "UTF-16", ""],
    ["UTF-16, big end first", Buffer.from(utf16).swap16(), "UTF-16", ""],
    ["UTF-16 without a mark", Buffer.from(text, "utf16le"), "UTF-16", ""],
    ["UTF-16 without a mark, big end first", Buffer.from(text, "utf16le").swap16(), "UTF-16", ""],
    ["Latin-1", Buffer.from(text, "latin1"), "Latin-1", "line 1, column 13"],
    ["a compressed file", gzipSync(text), "compressed", ""],
    ["a spreadsheet", Buffer.from("PK\u0003\u0004..."), "compressed", ""],
  ])("is refused by name: %s", (_, bytes, name, path) => {
    const act = () => fileText(asUtf8(bytes));
    expect(refusal(act)).toEqual({ code: "unreadable-file", path });
    expect(act).toThrow(name);
  });
});

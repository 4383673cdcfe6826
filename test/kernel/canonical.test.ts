import { createHash } from "node:crypto";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { canonicalJson, sha256 } from "../../src/kernel/index.ts";

const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);

describe("canonical JSON, RFC 8785", () => {
  it("gives the bytes of section 3.2.4 for the sample of section 3.2.2", () => {
    const sample = JSON.parse(String.raw`{
      "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
      "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
      "literals": [null, true, false]
    }`) as unknown;
    const bytes = `
      7b 22 6c 69 74 65 72 61 6c 73 22 3a 5b 6e 75 6c 6c 2c 74 72 75 65 2c 66 61 6c 73 65 5d 2c 22 6e 75 6d 62 65 72 73 22 3a
      5b 33 33 33 33 33 33 33 33 33 2e 33 33 33 33 33 33 33 2c 31 65 2b 33 30 2c 34 2e 35 2c 30 2e 30 30 32 2c 31 65 2d 32 37
      5d 2c 22 73 74 72 69 6e 67 22 3a 22 e2 82 ac 24 5c 75 30 30 30 66 5c 6e 41 27 42 5c 22 5c 5c 5c 5c 5c 22 2f 22 7d`;
    expect(Buffer.from(utf8(canonicalJson(sample))).toString("hex")).toBe(bytes.replace(/\s/g, ""));
  });

  it("sorts fields by UTF-16 units, section 3.2.3", () => {
    const sample = {
      "\u20ac": "Euro Sign",
      "\r": "Carriage Return",
      "\ufb33": "Hebrew Letter Dalet With Dagesh",
      "1": "One",
      "\ud83d\ude00": "Emoji: Grinning Face",
      "\u0080": "Control",
      "\u00f6": "Latin Small Letter O With Diaeresis",
    };
    expect(Object.values(JSON.parse(canonicalJson([sample]).slice(1, -1)) as object)).toHaveLength(7);
    const order = [...canonicalJson(sample).matchAll(/:"([^"]+)"/g)].map(([, value]) => value);
    expect(order).toEqual([
      "Carriage Return",
      "One",
      "Control",
      "Latin Small Letter O With Diaeresis",
      "Euro Sign",
      "Emoji: Grinning Face",
      "Hebrew Letter Dalet With Dagesh",
    ]);
  });

  it.each([
    ["0000000000000000", "0"],
    ["8000000000000000", "0"],
    ["0000000000000001", "5e-324"],
    ["8000000000000001", "-5e-324"],
    ["7fefffffffffffff", "1.7976931348623157e+308"],
    ["ffefffffffffffff", "-1.7976931348623157e+308"],
    ["4340000000000000", "9007199254740992"],
    ["c340000000000000", "-9007199254740992"],
    ["4430000000000000", "295147905179352830000"],
    ["44b52d02c7e14af5", "9.999999999999997e+22"],
    ["44b52d02c7e14af6", "1e+23"],
    ["44b52d02c7e14af7", "1.0000000000000001e+23"],
    ["444b1ae4d6e2ef4e", "999999999999999700000"],
    ["444b1ae4d6e2ef4f", "999999999999999900000"],
    ["444b1ae4d6e2ef50", "1e+21"],
    ["3eb0c6f7a0b5ed8c", "9.999999999999997e-7"],
    ["3eb0c6f7a0b5ed8d", "0.000001"],
    ["41b3de4355555553", "333333333.3333332"],
    ["41b3de4355555554", "333333333.33333325"],
    ["41b3de4355555555", "333333333.3333333"],
    ["41b3de4355555556", "333333333.3333334"],
    ["41b3de4355555557", "333333333.33333343"],
    ["becbf647612f3696", "-0.0000033333333333333333"],
    ["43143ff3c1cb0959", "1424953923781206.2"],
  ])("writes the number %s of appendix B as %s", (bits, text) => {
    expect(canonicalJson(Buffer.from(bits, "hex").readDoubleBE(0))).toBe(text);
  });

  it("refuses what appendix B and section 3.2.2.2 call an error: numbers that are none, half surrogate pairs", () => {
    for (const bits of ["7fffffffffffffff", "7ff0000000000000"])
      expect(() => canonicalJson(Buffer.from(bits, "hex").readDoubleBE(0))).toThrow(RangeError);
    expect(() => canonicalJson({ text: "\udead" })).toThrow(RangeError);
    expect(() => canonicalJson(() => 1)).toThrow(RangeError);
  });

  it("is the same for the same data in whatever order, and reads back as it", () => {
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        const text = canonicalJson(value);
        expect(canonicalJson(JSON.parse(text))).toBe(text);
        expect(JSON.parse(text)).toEqual(JSON.parse(JSON.stringify(value)));
      }),
    );
  });
});

describe("SHA-256, FIPS 180-4", () => {
  // The examples that NIST publishes with the standard.
  it.each([
    ["", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"],
    ["abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"],
    [
      "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
      "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
    ],
    ["a".repeat(1_000_000), "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0"],
  ])("of the published examples", (text, digest) => {
    expect(sha256(utf8(text))).toBe(digest);
  });

  it("is that of another implementation for any bytes, at every length about a block", () => {
    for (let length = 0; length < 200; length += 1) {
      const bytes = Uint8Array.from({ length }, (_, k) => (k * 37 + length) & 255);
      expect(sha256(bytes)).toBe(createHash("sha256").update(bytes).digest("hex"));
    }
  });
});

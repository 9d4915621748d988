import { MessageChannel } from "node:worker_threads";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { jsonFits, shapeOf } from "../../app/host/message-shape.ts";

// Limits on nesting are what RFC 8259, section 9, lets a reader of JSON set.

const limits = { depth: 4, values: 20 };
const fits = (text: string) => jsonFits(Buffer.from(text), limits);

describe("JSON is held to a depth and a number of values before it is read", () => {
  it.each([
    ["nothing", ""],
    ["the depth that is allowed", "[[[[1]]]]"],
    ["brackets one after another", "[[],[],[],{}]"],
    ["brackets within a text", `["${"[".repeat(100)}"]`],
    ["a quoted quote before brackets", `["\\"${"[".repeat(100)}"]`],
    ["a text that never ends, which the parser refuses", `["${"[".repeat(100)}\\"`],
    ["a quoted backslash at a text's end", `["\\\\",[]]`],
    ["commas within a text", `["${",".repeat(100)}"]`],
    ["as many values as are allowed", `[${"1,".repeat(17)}1]`],
  ])("takes %s", (_name, text) => {
    expect(fits(text)).toBe(true);
  });

  it.each([
    ["one level more", "[[[[[1]]]]]"],
    ["objects in lists", `[{"a":[{"b":[1]}]}]`],
    ["brackets that never close", "[".repeat(1_000)],
    ["brackets behind a quoted backslash", `["\\\\",${"[".repeat(5)}`],
    ["brackets behind three backslashes and a quote", `["\\\\\\"",${"[".repeat(5)}`],
    ["one value more", `[${"1,".repeat(19)}1]`],
    ["empty lists in number", `[${"[],".repeat(19)}[]]`],
  ])("refuses %s", (_name, text) => {
    expect(fits(text)).toBe(false);
  });

  it("agrees with the depth of what the parser makes of any JSON", () => {
    const depthOf = (value: unknown): number =>
      typeof value === "object" && value !== null ? 1 + Math.max(0, ...Object.values(value).map(depthOf)) : 0;
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 6 }), (value) => {
        const json = Buffer.from(JSON.stringify(value));
        expect(jsonFits(json, { depth: 4, values: 1e6 })).toBe(depthOf(value) <= 4);
      }),
      { seed: 3 },
    );
  });

  it("looks through a large message in a time that grows with it, whatever it holds", () => {
    const start = performance.now();
    for (const piece of ['"a"', "a", '"', "\\", '\\"', '"\\\\', "{}", "1,"]) {
      // With no limit to stop at.
      jsonFits(Buffer.alloc(2 * 1024 * 1024, piece), {
        depth: Number.POSITIVE_INFINITY,
        values: Number.POSITIVE_INFINITY,
      });
    }
    // Together half a second where the machine has nothing else to do; in squared time, it would be hours.
    expect(performance.now() - start).toBeLessThan(15_000);
  });
});

const cyclic: Record<string, unknown> = {};
cyclic.self = cyclic;
/** Little to send, and 10^9 texts to whoever follows each of them. */
const laughs = Array.from({ length: 9 }).reduce<unknown>((inner) => Array.from({ length: 10 }, () => inner), "ha");
const hole: number[] = [];
hole.length = 5;
const named = Object.assign([1, 2], { more: "x".repeat(10) });

describe("a message of the desktop's page is plain and no larger than any other", () => {
  const copied = (value: unknown) =>
    new Promise<unknown>((done) => {
      const { port1, port2 } = new MessageChannel();
      port2.once("message", (message) => {
        port1.close();
        done(message);
      });
      port1.postMessage(value);
    });

  it.each<[string, unknown, string]>([
    ["a question", { kind: "study.show", study: null }, "fits"],
    ["a text alone", "x".repeat(100), "fits"],
    ["nothing", undefined, "fits"],
    ["a text above the limit", "x".repeat(101), "tooLarge"],
    ["texts above it together", ["x".repeat(60), { a: "x".repeat(60) }], "tooLarge"],
    ["a key above it", { ["k".repeat(101)]: 1 }, "tooLarge"],
    ["more values than any message has", Array.from({ length: 21 }, () => 0), "tooLarge"],
    ["one thing in a thousand million places", laughs, "tooLarge"],
    ["itself", cyclic, "notPlain"],
    ["nesting", [[[[[1]]]]], "notPlain"],
    ["a list of holes", hole, "notPlain"],
    ["a list with names", named, "notPlain"],
    ["a map", new Map([["kind", "study.show"]]), "notPlain"],
    ["a set", new Set([1]), "notPlain"],
    ["a date", { when: new Date(0) }, "notPlain"],
    ["a pattern", /x/, "notPlain"],
    ["bytes", new Uint8Array(4), "notPlain"],
    ["a buffer", [new ArrayBuffer(4)], "notPlain"],
    ["an error", new Error("x"), "notPlain"],
    ["a big number", 1n, "notPlain"],
  ])("%s", async (_name, value, wanted) => {
    expect(shapeOf(await copied(value), 100, limits)).toBe(wanted);
  });

  it("is told from its own claims: a list says four thousand million, and is one thing", async () => {
    const long: unknown[] = [];
    long.length = 2 ** 32 - 1;
    expect(shapeOf(await copied(long), 100)).toBe("tooLarge");
  });

  it("counts what is met again and again, and ends", async () => {
    expect(shapeOf(await copied(laughs), 1e9, { depth: 64, values: 10_000 })).toBe("tooLarge");
  });
});

import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { addressOf, addressOfScreen, choiceOf, type Route, routeOf, screenNames } from "../../renderer/state/route.ts";

const anyText = fc.option(fc.string({ unit: "binary", minLength: 1 }), { nil: null });

const anyRoute: fc.Arbitrary<Route> = fc.record({
  screen: fc.constantFrom(...screenNames, "studies" as const),
  study: fc.option(fc.stringMatching(/^[A-Za-z0-9_-]{1,64}$/), { nil: null }),
  quantity: anyText,
  variant: anyText,
  baseline: anyText,
  show: fc.constantFrom("readings" as const, null),
  phase: anyText,
  sort: anyText,
  falling: fc.constantFrom("yes" as const, null),
  run: anyText,
  column: anyText,
  import: anyText,
  bench: fc.option(fc.stringMatching(/^\d{1,15}$/), { nil: null }),
  step: anyText,
  find: anyText,
  ofVariant: anyText,
  ofPhase: anyText,
  only: anyText,
  setUp: fc.constantFrom("instrument" as const, "fuel" as const, null),
});

describe("addresses of the page", () => {
  it("keep whatever a variant or a run is called, so that a reload shows the same", () => {
    fc.assert(
      fc.property(anyRoute, (route) => {
        expect(routeOf(addressOf(route))).toEqual(route);
      }),
    );
  });

  it("lead to the study where they are empty, foreign or broken", () => {
    for (const hash of ["", "#", "#/", "#/plan", "#/__proto__", "#token=abc", "#/study?%E0%A4%A", "#/?constructor=1"]) {
      expect(routeOf(hash).screen, hash).toBe("study");
      expect(choiceOf(routeOf(hash)), hash).toEqual({ quantity: null, variant: null, baseline: null });
    }
  });

  it("carry the choice from page to page and forget the cell that was pointed at", () => {
    const compare = routeOf("#/compare?quantity=taskFuel5L&variant=skirt&baseline=no+skirt&run=R07&column=end");
    const report = routeOf(addressOfScreen(compare, "report"));
    expect(choiceOf(report)).toEqual({ quantity: "taskFuel5L", variant: "skirt", baseline: "no skirt" });
    expect(report.run).toBeNull();
    expect(report.column).toBeNull();
  });
});

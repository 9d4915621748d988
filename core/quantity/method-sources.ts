import type { Method } from "../readings/phase.ts";

/** The published procedure of each method, as sources name it. */
export const methodSources: Record<Method, string> = {
  wbt: "Water Boiling Test protocol, version 4.2.3 (2014)",
  iso: "ISO 19867-1:2018",
};

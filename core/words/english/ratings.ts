import { shorten } from "../shorten.ts";

/** What is said of tiers. */
export const ratings = {
  otherMethod: (scheme: string, method: string) =>
    `Not rated by ${scheme}: it rates runs of one method (${method}), and there is none that counts.`,
  scope: (source: string) =>
    `Tiers: ${source}. Its parts on safety and durability are not covered here. A rating here is not a certification.`,
  isoChoice:
    "The efficiency without char credit is rated, on the mean over the three power levels (this choice is from memory); each level is given beside it.",
  indoor:
    "Emissions into the room are not rated: the readings say what the fire gives off, not what stays in the room.",
  noInterval: (variant: string, label: string, runs: number) =>
    runs === 1
      ? `“${shorten(variant)}” is not rated in ${label}: one run gives no interval.`
      : `“${shorten(variant)}” is not rated in ${label}: runs without any variation give no interval.`,
  noValue: (variant: string, label: string, because: string) => `“${variant}” is not rated in ${label}: ${because}.`,
};

import {
  defaultLocale,
  type Method,
  nothingKnown,
  type ProcedureOptions,
  type SheetDocument,
  type SheetRequest,
  sheetDocument,
} from "../../core/index.ts";

const options: ProcedureOptions = { pots: 1, charAtHotStart: false, emissions: false };

/** Sheets of an invented study; one blank run of the Water Boiling Test with one pot unless `change` says otherwise. */
export function inventedSheets(
  change: Partial<Omit<SheetRequest, "options">> & { readonly options?: Partial<ProcedureOptions> } = {},
): SheetDocument {
  return sheetDocument({
    study: "Tall kettle stove, skirt and gap",
    method: "wbt",
    runs: { blank: 1 },
    known: nothingKnown,
    version: "1.2.3",
    locale: defaultLocale,
    ...change,
    options: { ...options, ...change.options },
  });
}

export const inventedKnown: SheetRequest["known"] = {
  date: null,
  operator: null,
  fuels: ["eucalyptus, split"],
  pots: [
    { pot: 1, emptyGrams: 612 },
    { pot: 2, emptyGrams: 588.5 },
  ],
  charContainerGrams: 248,
  altitudeMetres: 1600,
};

/** A plan of 24 invented runs in six blocks. */
export const inventedPlan = Array.from({ length: 24 }, (_, index) => ({
  run: `R${String(index + 1).padStart(2, "0")}`,
  variant:
    ["no skirt, wide gap", "skirt, narrow gap", "skirt, wide gap", "no skirt, narrow gap"][(index * 7) % 4] ?? "",
  order: index + 1,
  block: `day ${Math.floor(index / 4) + 1}`,
}));

/** Every kind of sheet that differs in its fields. */
export const kindsOfSheets: readonly { readonly method: Method; readonly options: ProcedureOptions }[] = (
  ["wbt", "iso"] as const
).flatMap((method) =>
  ([1, 2, 3, 4] as const).flatMap((pots) =>
    [false, true].map((more) => ({ method, options: { pots, charAtHotStart: more, emissions: more } })),
  ),
);

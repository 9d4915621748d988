import type { StartingValueName } from "../../readings/starting-values.ts";

const practice = "common practice, no source";
const balance = (klass: string, from: string, share: string) =>
  `Gain: what OIML R 76-1:2006 permits in service to class ${klass} (2014/31/EU, annex I, table 3, has the same), at most ${share} % of loads from ${from} g on. A balance that was never verified may be worse: weigh a known mass`;
const thermocouple = (digit: string) =>
  `Gain: type K, tolerance class 2, 2.5 °C up to 333 °C, IEC 60584-1:2013 (from tables that quote it), as a share of 100 °C: where it is as warm as its meter, it has no error. Meter: ${practice}. Resolution: a display of ${digit} °C. Check it in boiling water`;
const weather = `air pressure off the standard atmosphere of ISO 2533: 50 m is about 0.5 kPa, ${practice}`;

/** Instruments of which usual errors can be taken over: what each is called, and where its numbers are from. */
export const startingValueWords: Readonly<
  Record<StartingValueName, { readonly label: string; readonly source: string }>
> = {
  benchBalance1g: { label: "kitchen or bench balance, 1 g", source: balance("III", "1000", "0.2") },
  benchBalance01g: { label: "bench balance, 0.1 g", source: balance("III", "300", "0.1") },
  hangingScale10g: { label: "hanging scale, 10 g", source: balance("IIII", "6000", "0.5") },
  thermocoupleK01: { label: "type K thermocouple, 0.1 °C", source: thermocouple("0.1") },
  thermocoupleK1: { label: "type K thermocouple, 1 °C", source: thermocouple("1") },
  pinMoistureMeter: {
    label: "pin moisture meter, dry basis",
    source: `What such meters depend on: VTT Publications 420 (2000), Forsén and Tarvainen, and FPL-GTR-6 (1988), James. Sizes: ${practice}. Up to about 25 % on the dry basis; above, they say little`,
  },
  ovenDry: {
    label: "dried in an oven",
    source: `Method: ISO 18134-2 (from memory). Sizes: ${practice}: specimens differ from the lot, and are not quite dry`,
  },
  clockSeconds: {
    label: "clock read to the second",
    source: `Resolution: the display. The moment at which water boils or the fire is lit: ${practice}`,
  },
  clockMinutes: { label: "clock read to the minute", source: "Resolution: the display" },
  phoneBarometer: { label: "barometer of a phone", source: `Offset: ${practice}. Resolution: a display of 0.1 hPa` },
  altitudeFromMap: {
    label: "from a map",
    source: `Terrain model of the shuttle radar mission: 16 m at 90 % confidence, Scientific Reports 7, 41672 (2017); ${weather}`,
  },
  altitudeFromPhone: { label: "from a phone", source: `Satellite fix: ${practice}; ${weather}` },
  tableHydrogen: {
    label: "of wood, from a table",
    source: "Woods have from about 5.6 to 7.0 %, ISO 17225-1:2014, table B.1 (from memory)",
  },
};

/** Where the char's assumed calorific value and its error are from. */
export const assumedCharWords = {
  label: "assumed value",
  source: `29 500 kJ/kg: Water Boiling Test 4.2.3 (from memory). Its standard uncertainty: ${practice}: chars of wood with little ash lie from about 27 000 to 32 000 kJ/kg, those of a cool fire lower`,
};

/** Which instrument took a reading; its uncertainty comes from there. */
export type InstrumentRole =
  | "fuelBalance"
  | "potBalance"
  | "thermometer"
  | "moistureMeter"
  | "clock"
  | "barometer"
  | "altitude"
  | "hydrogen"
  | "co"
  | "pm25";

/**
 * One act of reading an instrument. Its identity matters: a weighing that is used in three phases is one reading with one
 * error, and carries one `id` wherever it is used.
 */
export interface Reading {
  readonly id: string;
  readonly value: number;
}

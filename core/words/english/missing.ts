import type { MissingReason } from "../../method/outcome.ts";
import type { PhaseName } from "../../readings/phase.ts";
import { quantityWords } from "./quantities.ts";

const named = (fuel: string | null) => (fuel === null ? "the fuel" : `“${fuel}”`);

function because(reason: MissingReason): string {
  switch (reason.code) {
    case "noPhase":
      return `no ${quantityWords.phase[reason.phase]} phase`;
    case "noChar":
      return "no char was weighed";
    case "noMoisture":
      return `no moisture of ${named(reason.fuel)}`;
    case "noCalorific":
      return `no calorific value of ${named(reason.fuel)}, in the row or in the settings`;
    case "noAirTemperature":
      return "no air temperature";
    case "noBoilingPoint":
      return "no boiling point, pressure or altitude";
    case "pressureOutOfRange":
      return "the pressure or altitude is outside the range of the water formulas";
    case "noWaterLeft":
      return "no water was left in the pots";
    case "startedAtBoiling":
      return "the water of a pot was at boiling when the phase began";
    case "noTemperatureRise":
      return "the water of pot 1 did not get warmer";
    case "noFuelEnergy":
      return "the fuel used, if any, brought no energy";
    case "noEnergyFromFuel":
      return "the char left over holds as much energy as the fuel used";
    case "noHeatGained":
      return "the water gained no heat";
    case "noFirepower":
      return "the simmer's firepower is not above zero";
    case "noBoiledAt":
      return "the moment it boiled was not recorded";
    case "noStartTime":
      return "the moment it boiled was recorded, but not the start";
    case "notRecorded":
      return "a reading that it needs was not recorded";
    case "tooLarge":
      return "the result is too large to be a number";
    case "notMeasured":
      return reason.what === "carbonMonoxide" ? "carbon monoxide was not measured" : "fine particles were not measured";
  }
}

/** Why a result is not there. */
export const missingWords = {
  because: (reason: MissingReason, phase: PhaseName | null) =>
    phase === null ? because(reason) : `${quantityWords.phase[phase]}: ${because(reason)}`,
};

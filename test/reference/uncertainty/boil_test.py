"""The quantities of a boil test, from a readings file and a settings file, with every reading's errors.

Written from the published formulas (Water Boiling Test 4.2.3; ISO 19867-1:2018; ISO 18125) and from the program's description of its
two files, not from its code. A run is evaluated with a function `z` that gives each source's standardised error: zero, a small
imaginary number (derivative) or an array (trials).
"""
import csv
import json
import math

import steam

PHASES = {"wbt": ["cold-start", "hot-start", "simmer"], "iso": ["high-power", "medium-power", "low-power"]}
BOILING = ("cold-start", "hot-start")
SIZES = ("standardUncertainty", "halfWidth", "expandedUncertainty")


class Source:
    """One random error: size times a standardised draw, absolute or as a fraction of the reading (JCGM 100, 4.3)."""

    def __init__(self, key, component):
        self.key = key
        self.is_shared = component["kind"] == "shared"
        self.distribution = component["distribution"]
        self.freedom = component.get("degreesOfFreedom", math.inf)
        for size in SIZES:
            for name, relative in ((size, False), ("relative" + size[0].upper() + size[1:], True)):
                if name in component:
                    self.is_relative = relative
                    divisor = {"rectangular": math.sqrt(3), "triangular": math.sqrt(6)}.get(self.distribution, 1)
                    divisor = divisor if size == "halfWidth" else component.get("coverageFactor", 1)
                    self.size = component[name] / divisor

    def draw(self, rng, n):
        """JCGM 101, 6.4. A normal error known with few degrees of freedom is drawn as a scaled t."""
        if self.distribution == "rectangular":
            return rng.uniform(-math.sqrt(3), math.sqrt(3), n)
        if self.distribution == "triangular":
            return (rng.random(n) + rng.random(n) - 1) * math.sqrt(6)
        return rng.standard_normal(n) if math.isinf(self.freedom) else rng.standard_t(self.freedom, n)


def components_of(thing):
    """The components, or what the short forms stand for."""
    if thing is None:
        return []
    if "resolution" in thing:
        return [{"distribution": "rectangular", "halfWidth": thing["resolution"] / 2, "kind": "independent"}]
    if "components" not in thing and "standardUncertainty" in thing:
        return [{"distribution": "normal", "standardUncertainty": thing["standardUncertainty"], "kind": "shared"}]
    return thing.get("components", [])


class Study:
    def __init__(self, readings, settings):
        with open(settings, encoding="utf-8") as file:
            self.settings = json.load(file)
        self.confidence = self.settings["confidence"]
        self.runs, self.variant, self.sources = {}, {}, {}
        with open(readings, encoding="utf-8", newline="") as file:
            for row in csv.DictReader(file):
                self.runs.setdefault(row["run"], {})[row["phase"]] = row
                self.variant[row["run"]] = row["variant"]

    def instrument(self, role):
        """The role that an instrument is described at, and its components: two roles may be one instrument."""
        found = self.settings["instruments"].get(role)
        while isinstance(found, str):
            role, found = found, self.settings["instruments"].get(found)
        return role, components_of(found)

    def source(self, key, component):
        if key not in self.sources:
            self.sources[key] = Source(key, component)
        return self.sources[key]


class Run:
    def __init__(self, study, run, z):
        self.study, self.run, self.z = study, run, z

    def erring(self, value, owner, components, reading, is_net=False):
        """A value with its errors: shared ones of the owner, independent ones of this reading; a net mass has those of two weighings."""
        out = value
        for at, component in enumerate(components):
            if component["kind"] == "shared":
                source = self.study.source(("shared", owner, at), component)
                if source.is_relative or not is_net:
                    out = out + source.size * (value if source.is_relative else 1) * self.z(source)
                continue
            for side in (1, -1) if is_net else (1,):
                source = self.study.source(("own", self.run, owner, at, *reading, side), component)
                out = out + side * source.size * (value if source.is_relative else 1) * self.z(source)
        return out

    def read(self, role, phase, column, row, is_net=False, is_once=False):
        """`is_once`: one reading for all phases of the run in which it stands with this value."""
        value = float(row[column])
        owner, components = self.study.instrument(role)
        return self.erring(value, owner, components, (column, value) if is_once else (phase, column), is_net)

    def calorific(self, row, prefix):
        """LHV, kJ/kg dry; from a gross value: HHV - 2442 x 8.936 H. The row's value wins and has the settings' errors."""
        name = row["fuel" if prefix == "" else prefix]
        fuel = self.study.settings["fuels"][name]
        column = "" if prefix == "" else prefix + "_"
        net = row.get(f"{column}net_calorific_kJ_per_kg")
        gross = row.get(f"{column}gross_calorific_kJ_per_kg")
        stated = fuel.get("netCalorific") or fuel.get("grossCalorific")
        value = float(net or gross or stated["value"])
        heat = self.erring(value, f"calorific {name}", components_of(stated), ())
        if net or not (gross or "grossCalorific" in fuel):
            return heat
        hydrogen = fuel["hydrogenPercent"]
        percent = float(row.get(f"{column}hydrogen_percent") or hydrogen["value"])
        return heat - 2442 * 8.936 * self.erring(percent, f"hydrogen {name}", components_of(hydrogen), ()) / 100

    def fuels(self, phase, row):
        """For each entry: moist mass used, moisture (wet basis, fraction), LHV."""
        entries = []
        for prefix in ("", "fuel2", "fuel3", "fuel4"):
            start = f"{prefix or 'fuel'}_start_g"
            if not row.get(start):
                continue
            used = self.read("fuelBalance", phase, start, row) - self.read("fuelBalance", phase, start.replace("start", "end"), row)
            moisture = "moisture" if prefix == "" else f"{prefix}_moisture"
            if row.get(f"{moisture}_wet_percent"):
                m = self.read("moistureMeter", phase, f"{moisture}_wet_percent", row, is_once=True) / 100
            else:
                d = self.read("moistureMeter", phase, f"{moisture}_dry_percent", row, is_once=True) / 100
                m = d / (1 + d)
            entries.append((used, m, self.calorific(row, prefix)))
        return entries

    def boiling_point(self, phase, row):
        if row.get("boiling_C"):
            return self.read("thermometer", phase, "boiling_C", row, is_once=True)
        if row.get("pressure_kPa"):
            return steam.saturation_temperature(self.read("barometer", phase, "pressure_kPa", row, is_once=True))
        return steam.saturation_temperature(steam.pressure_at(self.read("altitude", phase, "altitude_m", row, is_once=True)))

    def char_at_end(self, phase, row, before):
        if row.get("char_with_container_g"):
            both = self.read("fuelBalance", phase, "char_with_container_g", row)
            return both - self.read("fuelBalance", phase, "char_container_g", row, is_once=True)
        if row.get("char_g"):
            return self.read("fuelBalance", phase, "char_g", row, is_net=True)
        return before.get("cold-start") if phase == "hot-start" else None

    def char_at_start(self, phase, row, before):
        if row.get("char_at_start_g"):
            return 0 if float(row["char_at_start_g"]) == 0 else self.read("fuelBalance", phase, "char_at_start_g", row, is_net=True)
        return before["hot-start"] if phase == "simmer" else 0

    def pots(self, phase, row):
        """For each pot: water at start and end, lost; temperatures at start and end."""
        found = []
        for pot in ("pot1", "pot2", "pot3", "pot4"):
            if row.get(f"{pot}_start_g"):
                empty = self.read("potBalance", phase, f"{pot}_empty_g", row, is_once=True)
                start, end = (self.read("potBalance", phase, f"{pot}_{when}_g", row) for when in ("start", "end"))
                masses = (start - empty, end - empty, start - end)
            elif row.get(f"{pot}_water_start_g"):
                start, end = (self.read("potBalance", phase, f"{pot}_water_{when}_g", row, is_net=True) for when in ("start", "end"))
                masses = (start, end, start - end)
            else:
                continue
            found.append((*masses, *(self.read("thermometer", phase, f"{pot}_{when}_C", row) for when in ("start", "end"))))
        return found

    def duration(self, phase, row):
        """Minutes; the clock's errors are in seconds."""
        owner, components = self.study.instrument("clock")
        if row.get("duration_min"):
            return self.erring(60 * float(row["duration_min"]), owner, components, (phase, "duration")) / 60
        def seconds(text):
            return sum(float(part) * unit for part, unit in zip(text.split(":"), (3600, 60, 1)))
        start, end = seconds(row["start"]), seconds(row["end"])
        end = end + 86400 if end < start else end
        return (self.erring(end, owner, components, (phase, "end")) - self.erring(start, owner, components, (phase, "start"))) / 60

    def phase(self, phase, row, before):
        fuels, pots, time = self.fuels(phase, row), self.pots(phase, row), self.duration(phase, row)
        boiling, air = self.boiling_point(phase, row), self.read("thermometer", phase, "air_C", row, is_once=True)
        heats = [heat * (1 - m) - m * (4.186 * (boiling - air) + 2257) for _, m, heat in fuels]
        heat = fuels[0][2]
        before[phase] = self.char_at_end(phase, row, before)
        char = before[phase] - self.char_at_start(phase, row, before)
        stated = self.study.settings["char"]["netCalorific"]
        char_heat = self.erring(float(row.get("char_net_calorific_kJ_per_kg") or stated["value"]), "char", components_of(stated), ())
        lost, remaining = sum(pot[2] for pot in pots), sum(pot[1] for pot in pots)
        rise = pots[0][4] - pots[0][3]
        gained = 4.186 * sum(pot[0] * (pot[4] - pot[3]) for pot in pots) + 2260 * lost
        dry = (sum(fuel[0] * each for fuel, each in zip(fuels, heats)) - char * char_heat) / heat
        useful = sum(4.18 * pot[0] * (pot[4] - pot[3]) + steam.latent_heat(boiling) * pot[2] for pot in pots)
        received = sum(used * (each * (1 - m) - 2443 * m) for used, m, each in fuels)
        out = {
            "fuelConsumedMoist": sum(fuel[0] for fuel in fuels), "charFormed": char, "effectiveCalorificValue": heats[0],
            "fuelConsumedDryEquivalent": dry, "waterEvaporated": lost, "waterRemaining": remaining,
            "heatGainedByWater": gained / 1000, "thermalEfficiency": gained / (dry * heat), "burningRate": dry / time,
            "firepower": dry * heat / (60 * time), "cookingPower": gained / (60 * time), "duration": time,
            "isoUsefulEnergy": useful / 1000, "isoEfficiencyWithoutChar": useful / received,
            "isoEfficiencyWithChar": useful / (received - char * char_heat), "isoFirepower": received / (60 * time),
            "isoCookingPower": useful / (60 * time),
        }
        boiled = remaining
        if phase in BOILING:
            boiled = sum(pot[1] * (pot[4] - pot[3]) / (boiling - pot[3]) for pot in pots)
            out["effectiveWaterBoiled"] = boiled
            out["timeToBoil"], out["timeToBoilCorrected"] = time, time * 75 / rise
        if phase in PHASES["wbt"]:
            out["specificFuelConsumption"] = 1000 * dry / boiled
            out["specificEnergyConsumption"] = dry / boiled * heat
        if phase in BOILING:
            out["specificFuelConsumptionCorrected"] = 1000 * dry / boiled * 75 / rise
            out["specificEnergyConsumptionCorrected"] = dry / boiled * heat * 75 / rise
        if phase == "simmer":
            out["lowPowerSpecificEnergyRate"] = dry * heat / (1000 * boiled * time)
        for column, name, role in (("co_g", "co", "co"), ("pm25_mg", "pm25", "pm25")):
            if row.get(column):
                emitted = self.read(role, phase, column, row)
                out[f"{name}PerEnergyDelivered"] = emitted / ((gained if phase in PHASES["wbt"] else useful) / 1e6)
                out[f"{name}Rate"], out[f"{name}PerDryFuel"] = emitted / time, emitted / (dry / 1000)
        return out

    def quantities(self):
        rows, before, out = self.study.runs[self.run], {}, {}
        for phase in [name for names in PHASES.values() for name in names if name in rows]:
            out.update({f"{phase}.{name}": value for name, value in self.phase(phase, rows[phase], before).items()})
        if not all(phase in rows for phase in PHASES["wbt"]):
            return out
        def both(name):
            return (out[f"cold-start.{name}"] + out[f"hot-start.{name}"]) / 2
        out["turnDownRatio"] = out["hot-start.firepower"] / out["simmer.firepower"]
        out["highPowerThermalEfficiency"] = both("thermalEfficiency")
        out["taskFuel5L"] = 5 * (both("specificFuelConsumptionCorrected") + out["simmer.specificFuelConsumption"])
        out["taskEnergy5L"] = 5 * (both("specificEnergyConsumptionCorrected") + out["simmer.specificEnergyConsumption"])
        out["taskTime"] = both("timeToBoilCorrected") + out["simmer.duration"]
        return out

"""Writes expected.json from the files in cases/: see PROVENANCE.md. Needs numpy."""
import json
import pathlib

import numpy

import steam
from boil_test import Study
from propagate import Group, combined_difference, combined_mean, combined_ratio, first_order, summary_with_errors, trials_of

HERE = pathlib.Path(__file__).parent
TRIALS = 400_000
SUMMARY = ("mean", "deviation", "lower", "upper", "shortestLower", "shortestUpper")
# Shares that wander with the machine's last digits are left out of the file.
EXACT, DRAWN = 12, 8


def rounded(value, digits):
    return float(f"{value:.{digits}g}")


def drawn_fields(trials, confidence):
    found, errors = summary_with_errors(trials, confidence)
    if found[1] <= 1e-12 * abs(found[0]):
        return {}
    fields = {}
    # Where a formula divides by what may be zero there is no mean: it never settles.
    has_moments = errors[1] < 0.05 * found[1]
    for name, value, error in zip(SUMMARY, found, errors):
        if has_moments or name not in ("mean", "deviation"):
            fields[name], fields[f"{name}Error"] = rounded(value, DRAWN), rounded(error, 3)
    return fields


def cases_of(path):
    study = Study(path, path.with_suffix(".json"))
    rng = numpy.random.default_rng(20240611)
    values, contributions, found = {}, {}, []
    for run in study.runs:
        values[run], contributions[run] = first_order(study, run)
        with numpy.errstate(all="ignore"):
            trials = trials_of(study, run, rng, TRIALS)
        for quantity, value in values[run].items():
            u = sum(slope**2 for slope in contributions[run][quantity].values()) ** 0.5
            case = {"case": path.stem, "kind": "run", "of": run, "quantity": quantity}
            case.update(value=rounded(value, EXACT), standardUncertainty=rounded(u, EXACT))
            found.append({**case, **drawn_fields(trials[quantity] + numpy.zeros(TRIALS), study.confidence)})
    variants = list(dict.fromkeys(study.variant.values()))
    if len(variants) < 2:
        return found
    for quantity in values[next(iter(study.runs))]:
        groups = [
            Group(study, [run for run in study.runs if study.variant[run] == variant], quantity, values, contributions)
            for variant in variants
        ]
        results = [("mean", variant, combined_mean(study, group)) for variant, group in zip(variants, groups)]
        for variant, group in list(zip(variants, groups))[1:]:
            results.append(("difference", variant, combined_difference(study, groups[0], group)))
            results.append(("ratio", variant, combined_ratio(study, groups[0], group)))
        for kind, variant, result in results:
            fields = {name: rounded(value, EXACT) for name, value in result.items()}
            found.append({"case": path.stem, "kind": kind, "of": variant, "quantity": quantity, **fields})
    return found


steam.check()
cases = [case for path in sorted((HERE / "cases").glob("*.csv")) for case in cases_of(path)]
lines = ",\n".join(json.dumps(case) for case in cases)
head = json.dumps({"tool": f"numpy {numpy.__version__}", "trials": TRIALS})[:-1]
(HERE / "expected.json").write_text(f'{head}, "cases": [\n{lines}\n]}}\n', encoding="utf-8")

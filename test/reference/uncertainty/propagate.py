"""First order by complex steps (JCGM 100), distributions by drawing (JCGM 101), means and comparisons of variants (JCGM 100, annex G; Fieller)."""
import math

import numpy

from boil_test import Run

STEP = 1e-30


def first_order(study, run):
    """Values, and for each quantity the contribution c u of each source: the imaginary part of a step along it, exact to rounding."""
    used = {}

    def zero(source):
        used[source.key] = source
        return 0.0

    values = Run(study, run, zero).quantities()
    contributions = {quantity: {} for quantity in values}
    for key in used:
        moved = Run(study, run, lambda source: STEP * 1j if source.key == key else 0.0).quantities()
        for quantity, value in moved.items():
            slope = float(numpy.imag(value)) / STEP
            if slope != 0:
                contributions[quantity][key] = slope
    return values, contributions


def trials_of(study, run, rng, n):
    """`n` trials of all quantities of a run."""
    drawn = {}

    def draw(source):
        if source.key not in drawn:
            drawn[source.key] = source.draw(rng, n)
        return drawn[source.key]

    return Run(study, run, draw).quantities()


def summary(trials, confidence):
    """Mean, standard deviation, ends of the symmetric and of the shortest interval (JCGM 101, 7.6, 7.7)."""
    ordered = numpy.sort(trials)
    n = len(ordered)
    spanned = int(math.floor(confidence * n + 0.5))
    first = (n - spanned) // 2
    widths = ordered[spanned:] - ordered[: n - spanned]
    best = int(numpy.argmin(widths))
    ends = [ordered[first], ordered[first + spanned], ordered[best], ordered[best + spanned]]
    return numpy.array([ordered.mean(), ordered.std(ddof=1), *ends])


def summary_with_errors(trials, confidence, blocks=25):
    """The same with the sampling errors, from the scatter between blocks; a shortest interval settles with the cube root of the trials."""
    each = numpy.array([summary(part, confidence) for part in numpy.array_split(trials, blocks)])
    scatter = each.std(axis=0, ddof=1)
    return summary(trials, confidence), numpy.concatenate([scatter[:4] / math.sqrt(blocks), scatter[4:] / blocks ** (1 / 3)])


def incomplete_beta(a, b, x):
    """Regularised, by its continued fraction (Abramowitz and Stegun 26.5.8, in Lentz's form)."""
    if x > (a + 1) / (a + b + 2):
        return 1 - incomplete_beta(b, a, 1 - x)
    front = math.exp(math.lgamma(a + b) - math.lgamma(a) - math.lgamma(b) + a * math.log(x) + b * math.log1p(-x)) / a
    c, d = 1.0, 1 / (1 - (a + b) * x / (a + 1))
    h = d
    for m in range(1, 5000):
        for term in (
            m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m)),
            -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1)),
        ):
            d, c = 1 / (1 + term * d), 1 + term / c
            h *= c * d
        if abs(c * d - 1) < 1e-16:
            break
    return front * h


def coverage_factor(confidence, freedom):
    """The t that |T| stays below with this probability, by bisection; the normal distribution's where the freedom is as good as none."""
    def outside(t):
        return math.erfc(t / math.sqrt(2)) if freedom > 1e8 else incomplete_beta(freedom / 2, 0.5, freedom / (freedom + t * t))

    low, high = 1e-3, 1e4
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if outside(middle) > 1 - confidence else (low, middle)
    return low


def effective_freedom(terms):
    """Welch and Satterthwaite, JCGM 100, G.2b: terms are (variance, degrees of freedom)."""
    total = sum(variance for variance, _ in terms)
    fourths = sum((variance / total) ** 2 / freedom for variance, freedom in terms)
    return 1 / fourths if fourths > 1e-15 else math.inf


class Group:
    """One variant in one quantity. u^2(mean) = s^2/n + u^2(shared); of one run the independent errors in place of s^2/n."""

    def __init__(self, study, runs, quantity, values, contributions):
        data = [values[run][quantity] for run in runs]
        self.mean, n = sum(data) / len(data), len(data)
        self.shared, own = {}, []
        for run in runs:
            for key, slope in contributions[run][quantity].items():
                source = study.sources[key]
                if source.is_shared:
                    self.shared[key] = self.shared.get(key, 0) + slope / n
                elif n == 1:
                    own.append((slope**2, source.freedom))
        self.own = own if n == 1 else [(sum((x - self.mean) ** 2 for x in data) / (n - 1) / n, n - 1)]
        self.variance = sum(variance for variance, _ in self.own) + sum(slope**2 for slope in self.shared.values())


def shared_terms(study, weighted):
    """Errors in common, each with the sum of its contributions."""
    parts = {}
    for weight, group in weighted:
        for key, slope in group.shared.items():
            parts[key] = parts.get(key, 0) + weight * slope
    return [(part**2, study.sources[key].freedom) for key, part in parts.items()]


def interval_of(estimate, terms, confidence):
    u, freedom = math.sqrt(sum(variance for variance, _ in terms)), effective_freedom(terms)
    half = coverage_factor(confidence, freedom) * u
    return {"value": estimate, "standardUncertainty": u, "lower": estimate - half, "upper": estimate + half}


def combined_mean(study, group):
    return interval_of(group.mean, group.own + shared_terms(study, [(1, group)]), study.confidence)


def combined_difference(study, first, second):
    terms = first.own + second.own + shared_terms(study, [(1, second), (-1, first)])
    return interval_of(second.mean - first.mean, terms, study.confidence)


def combined_ratio(study, first, second):
    """Fieller's set with covariance: all rho with (m2 - rho m1)^2 <= t^2 (v2 - 2 rho c + rho^2 v1)."""
    ratio = second.mean / first.mean
    own = second.own + [(ratio**2 * variance, freedom) for variance, freedom in first.own]
    terms = own + shared_terms(study, [(1, second), (-ratio, first)])
    t = coverage_factor(study.confidence, effective_freedom(terms))
    covariance = sum(slope * second.shared.get(key, 0) for key, slope in first.shared.items())
    a, b = first.mean**2 - t**2 * first.variance, first.mean * second.mean - t**2 * covariance
    root = math.sqrt(b * b - a * (second.mean**2 - t**2 * second.variance))
    u = math.sqrt(sum(variance for variance, _ in terms)) / abs(first.mean)
    return {"value": ratio, "standardUncertainty": u, "lower": (b - root) / a, "upper": (b + root) / a}

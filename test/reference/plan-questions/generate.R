# Questions of planning: power.t.test with strict = TRUE (both tails) where the numbers are equal; for unequal ones its formula by pt.
source("../json.R")
input <- read_input()
tight <- 1e-12
number <- function(text, usual = NA) if (text == "") usual else as.numeric(text)

power_of <- function(n1, n2, delta, sd, sig) {
  df <- n1 + n2 - 2; ncp <- delta / sd / sqrt(1 / n1 + 1 / n2); q <- qt(sig / 2, df, lower.tail = FALSE)
  pt(q, df, ncp = ncp, lower.tail = FALSE) + pt(-q, df, ncp = ncp)
}

needed <- function(n1, delta, sd, power, sig) {
  if (!is.na(n1)) {
    exact <- uniroot(function(n) power_of(n1, n, delta, sd, sig) - power, c(2, 1e5), tol = tight)$root
    runs <- ceiling(exact)
    return(list(runs = runs, exact = exact, reached = power_of(n1, runs, delta, sd, sig)))
  }
  # power.t.test looks for no fewer than two runs of each.
  exact <- power.t.test(delta = delta, sd = sd, sig.level = sig, power = power, strict = TRUE, tol = tight)$n
  runs <- ceiling(exact)
  list(runs = runs, exact = exact, reached = power.t.test(n = runs, delta = delta, sd = sd, sig.level = sig, strict = TRUE)$power)
}

one <- function(i) {
  row <- input[i, ]
  sd <- number(row$sd); delta <- number(row$detect); power <- number(row$power, 0.8); sig <- 1 - number(row$confidence, 0.95)
  n1 <- number(row$n1); runs <- number(row$runs); from <- number(row$sdFrom)
  out <- list(case = row$case, runsPerVariant = NA, exact = NA, powerReached = NA, detectable = NA, powerOfRuns = NA,
    upperLimit = NA, runsAtLimit = NA, exactAtLimit = NA)
  if (!is.na(delta)) {
    n <- needed(n1, delta, sd, power, sig)
    out$runsPerVariant <- n$runs; out$exact <- n$exact; out$powerReached <- n$reached
  }
  if (!is.na(runs)) {
    base <- if (is.na(n1)) runs else n1
    out$detectable <- uniroot(function(d) power_of(base, runs, d, sd, sig) - power, c(1e-6, 20) * sd, tol = tight * sd)$root
    if (is.na(n1)) {
      other <- power.t.test(n = runs, sd = sd, sig.level = sig, power = power, strict = TRUE, tol = tight)$delta
      stopifnot(abs(other / out$detectable - 1) < 1e-9)
    }
    if (!is.na(delta)) out$powerOfRuns <- power_of(base, runs, delta, sd, sig)
  }
  if (!is.na(from)) {
    out$upperLimit <- sd * sqrt((from - 1) / qchisq(0.2, from - 1))
    n <- needed(n1, delta, out$upperLimit, power, sig)
    out$runsAtLimit <- n$runs; out$exactAtLimit <- n$exact
  }
  out
}

write_expected(lapply(seq_len(nrow(input)), one))

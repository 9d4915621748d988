# Everything that is computed of a table, by base R: t.test, wilcox.test or all arrangements, shapiro.test, oneway.test, aov, TukeyHSD,
# lm with contrasts. Names are paths into the JSON. The studentized range and the noncentral t are integrated here, since ptukey, qtukey
# (good to 1e-4, says its help page) and pt (up to ncp = 37.62) are short of digits.
source("../json.R")
input <- read_input()

out <- list()
put <- function(name, value) out[[name]] <<- unname(as.numeric(value))

# P(Q > q): trapezoids, which for such smooth, vanishing integrands are as good as the machine.
range_tail <- function(q, k, df) {
  step <- 0.05; u <- seq(-38 / df - 2, 2.5, by = step); s <- exp(u)
  density <- 2 * exp(df / 2 * log(df / 2) - lgamma(df / 2) + df * u - df * s^2 / 2)
  z <- seq(-9, 9, by = 0.09)
  inner <- outer(q * s, z, function(w, z) k * dnorm(z) * (pnorm(z) - pnorm(z - w))^(k - 1))
  sum(density * pmax(0, 1 - rowSums(inner) * 0.09)) * step
}
range_quantile <- function(conf, k, df) {
  near <- qtukey(conf, k, df)
  uniroot(function(q) log(range_tail(q, k, df)) - log(1 - conf), near * c(0.9, 1.1), extendInt = "downX", tol = 1e-10)$root
}

# P(T <= t) for the noncentral t, over u = log of sqrt(chi2/df).
noncentral <- function(t, df, ncp) {
  step <- 0.001; u <- seq(-38 / df - 2, 2.5, by = step); s <- exp(u)
  sum(2 * exp(df / 2 * log(df / 2) - lgamma(df / 2) + df * u - df * s^2 / 2) * pnorm(t * s - ncp)) * step
}

grubbs <- function(x) {
  n <- length(x)
  g <- max(abs(x - mean(x))) / sd(x)
  t <- sqrt(n * (n - 2) * g^2 / ((n - 1)^2 - n * g^2))
  list(g = g, p = min(1, 2 * n * pt(t, n - 2, lower.tail = FALSE)))
}

fieller <- function(x, y, conf) {
  m1 <- mean(x); m2 <- mean(y); v1 <- var(x) / length(x); v2 <- var(y) / length(y)
  r <- m2 / m1
  df <- (v2 + r^2 * v1)^2 / (v2^2 / (length(y) - 1) + (r^2 * v1)^2 / (length(x) - 1))
  t2 <- qt((1 + conf) / 2, df)^2
  a <- m1^2 - t2 * v1; b <- -2 * m1 * m2; c <- m2^2 - t2 * v2
  if (a <= 0) return(c(NA, NA))
  sort((-b + c(-1, 1) * sqrt(b^2 - 4 * a * c)) / (2 * a))
}

hedges <- function(x, y, conf) {
  n1 <- length(x); n2 <- length(y); df <- n1 + n2 - 2
  d <- (mean(y) - mean(x)) / sqrt(((n1 - 1) * var(x) + (n2 - 1) * var(y)) / df)
  k <- sqrt(1 / n1 + 1 / n2); t <- d / k
  j <- exp(lgamma(df / 2) - lgamma((df - 1) / 2)) / sqrt(df / 2)
  limit <- function(p) uniroot(function(ncp) noncentral(t, df, ncp) - p, c(t - 5 - abs(t), t + 5 + abs(t)), tol = 1e-11)$root
  c(d, limit((1 + conf) / 2) * k, limit((1 - conf) / 2) * k) * j
}

ranks <- function(x, y) {
  r <- rank(c(x, y)); n1 <- length(x); n2 <- length(y)
  u <- sum(r[n1 + seq_len(n2)]) - n2 * (n2 + 1) / 2
  if (!anyDuplicated(c(x, y))) return(list(u = u, p = wilcox.test(y, x, exact = TRUE)$p.value))
  sums <- combn(n1 + n2, n2, function(i) sum(r[i]))
  s <- sum(r[n1 + seq_len(n2)])
  list(u = u, p = min(1, 2 * min(mean(sums <= s + 1e-9), mean(sums >= s - 1e-9))))
}

games_howell <- function(x, y, k, conf) {
  v1 <- var(x) / length(x); v2 <- var(y) / length(y)
  df <- (v1 + v2)^2 / (v1^2 / (length(x) - 1) + v2^2 / (length(y) - 1))
  se <- sqrt((v1 + v2) / 2); d <- mean(y) - mean(x)
  half <- range_quantile(conf, k, df) * se
  c(d, d - half, d + half, range_tail(abs(d) / se, k, df))
}

one <- function(i) {
  out <<- list()
  row <- input[i, ]
  conf <- as.numeric(row$confidence)
  table <- read.csv(sprintf("tables/%s.csv", row$case), colClasses = "character")
  table$value <- as.numeric(table$value)
  levels <- unique(table$variant)
  if (row$baseline != "") levels <- c(row$baseline, setdiff(levels, row$baseline))
  g <- factor(table$variant, levels = levels); x <- table$value
  groups <- split(x, g); k <- length(levels)

  for (l in levels) {
    v <- groups[[l]]; at <- function(name) sprintf("groups|%s|%s", l, name)
    put(at("n"), length(v)); put(at("mean"), mean(v)); put(at("standardDeviation"), sd(v)); put(at("median"), median(v))
    put(at("standardError"), sd(v) / sqrt(length(v)))
    if (mean(v) > 0) put(at("coefficientOfVariation"), sd(v) / mean(v))
    ci <- t.test(v, conf.level = conf)$conf.int
    put(at("interval|lower"), ci[1]); put(at("interval|upper"), ci[2])
    if (length(v) >= 3 && sd(v) > 0) {
      put(at("grubbs|statistic"), grubbs(v)$g)
      if (is.finite(grubbs(v)$p) && length(unique(v)) > 2) put(at("grubbs|p"), grubbs(v)$p)
      s <- shapiro.test(v)
      put(at("shapiroWilk|statistic"), s$statistic); put(at("shapiroWilk|p"), s$p.value)
    }
  }

  pairs <- combn(k, 2); ps <- c()
  for (c in seq_len(ncol(pairs))) {
    a <- groups[[pairs[1, c]]]; b <- groups[[pairs[2, c]]]
    at <- function(name) sprintf("pairs|%d|%s", c - 1, name)
    w <- t.test(b, a, conf.level = conf)
    put(at("difference|value"), mean(b) - mean(a)); put(at("difference|lower"), w$conf.int[1])
    put(at("difference|upper"), w$conf.int[2])
    put(at("welch|t"), w$statistic); put(at("welch|degreesOfFreedom"), w$parameter); put(at("welch|p"), w$p.value)
    ps <- c(ps, w$p.value)
    if (mean(a) > 0) {
      put(at("ratio|value"), mean(b) / mean(a))
      f <- fieller(a, b, conf); put(at("ratio|fieller|lower"), f[1]); put(at("ratio|fieller|upper"), f[2])
    }
    if (all(c(a, b) > 0)) {
      lw <- t.test(log(b), log(a), conf.level = conf)
      put(at("ratio|logWelch|value"), exp(mean(log(b)) - mean(log(a))))
      put(at("ratio|logWelch|lower"), exp(lw$conf.int[1])); put(at("ratio|logWelch|upper"), exp(lw$conf.int[2]))
    }
    h <- hedges(a, b, conf)
    put(at("hedgesG|value"), h[1]); put(at("hedgesG|lower"), h[2]); put(at("hedgesG|upper"), h[3])
    r <- ranks(a, b)
    put(at("mannWhitney|u"), r$u); put(at("mannWhitney|p"), r$p)
    put(at("mannWhitney|normalP"), wilcox.test(b, a, exact = FALSE, correct = TRUE)$p.value)
    put(at("mannWhitney|ties"), sum(c(a, b) %in% c(a, b)[duplicated(c(a, b))]))
    put(at("mannWhitney|smallestP"), min(1, 2 / choose(length(a) + length(b), length(a))))
    if (row$margin != "") {
      m <- as.numeric(row$margin)
      p <- max(t.test(b, a, mu = -m, alternative = "greater")$p.value, t.test(b, a, mu = m, alternative = "less")$p.value)
      put(at("equivalence|margin"), m); put(at("equivalence|p"), p)
    }
    gh <- games_howell(a, b, k, conf); at <- function(name) sprintf("gamesHowell|%d|%s", c - 1, name)
    put(at("difference"), gh[1]); put(at("lower"), gh[2]); put(at("upper"), gh[3]); put(at("p"), gh[4])
  }
  adjusted <- p.adjust(ps, "holm")
  for (c in seq_along(adjusted)) put(sprintf("pairs|%d|welch|holmP", c - 1), adjusted[c])

  ratio <- function(name, f, df1, df2, p) {
    put(paste0(name, "|f"), f); put(paste0(name, "|df1"), df1); put(paste0(name, "|df2"), df2); put(paste0(name, "|p"), p)
  }
  a <- anova(lm(x ~ g)); ratio("anova", a$F[1], a$Df[1], a$Df[2], a$"Pr(>F)"[1])
  z <- abs(x - ave(x, g, FUN = median)); a <- anova(lm(z ~ g)); ratio("brownForsythe", a$F[1], a$Df[1], a$Df[2], a$"Pr(>F)"[1])
  w <- oneway.test(x ~ g); ratio("welchAnova", w$statistic, w$parameter[1], w$parameter[2], w$p.value)
  pooled <- anova(lm(x ~ g)); ms <- pooled$"Mean Sq"[2]; df <- pooled$Df[2]
  for (c in seq_len(ncol(pairs))) {
    p <- groups[[pairs[1, c]]]; q <- groups[[pairs[2, c]]]; d <- mean(q) - mean(p)
    se <- sqrt(ms / 2 * (1 / length(p) + 1 / length(q))); half <- range_quantile(conf, k, df) * se
    at <- function(name) sprintf("tukey|%d|%s", c - 1, name)
    put(at("difference"), d); put(at("lower"), d - half); put(at("upper"), d + half)
    put(at("p"), range_tail(abs(d) / se, k, df))
  }

  if (row$block != "") {
    block <- factor(table[[row$block]])
    fit <- lm(x ~ block + g); a <- anova(fit)
    put("blocked|variantF", a["g", "F value"]); put("blocked|df1", a["g", "Df"])
    put("blocked|df2", a["Residuals", "Df"]); put("blocked|p", a["g", "Pr(>F)"])
    ps <- c()
    for (c in seq_len(ncol(pairs))) {
      r <- relevel(g, ref = levels[pairs[1, c]]); fit <- lm(x ~ block + r); name <- paste0("r", levels[pairs[2, c]])
      s <- summary(fit)$coefficients[name, ]; ci <- confint(fit, name, level = conf)
      at <- function(name) sprintf("blocked|pairs|%d|%s", c - 1, name)
      put(at("difference"), s[1]); put(at("lower"), ci[1]); put(at("upper"), ci[2]); put(at("p"), s[4])
      ps <- c(ps, s[4])
    }
    adjusted <- p.adjust(ps, "holm")
    for (c in seq_along(adjusted)) put(sprintf("blocked|pairs|%d|holmP", c - 1), adjusted[c])
  }

  factors <- strsplit(row$factors, " ")[[1]]
  if (length(factors) > 0) {
    for (f in factors) {
      table[[f]] <- factor(table[[f]], levels = unique(table[[f]]))
      # The first level is -1, so that a coefficient is half the effect.
      if (nlevels(table[[f]]) == 2) contrasts(table[[f]]) <- matrix(c(-1, 1), 2) else contrasts(table[[f]]) <- contr.sum(nlevels(table[[f]]))
    }
    fit <- lm(reformulate(paste(factors, collapse = " * "), "value"), table)
    tests <- drop1(fit, . ~ ., test = "F")
    s <- summary(fit)$coefficients; n <- 0
    term <- function(label) gsub(":", " × ", label, fixed = TRUE)
    for (f in attr(terms(fit), "term.labels")) {
      two <- all(vapply(strsplit(f, ":", fixed = TRUE)[[1]], function(one) nlevels(table[[one]]) == 2, TRUE))
      if (two) {
        name <- paste0(gsub(":", "1:", f, fixed = TRUE), "1")
        ci <- confint(fit, name, level = conf)
        at <- function(field) sprintf("factors|%s|%s", term(f), field)
        put(at("effect"), 2 * s[name, 1]); put(at("lower"), 2 * ci[1]); put(at("upper"), 2 * ci[2])
        put(at("t"), s[name, 3]); put(at("p"), s[name, 4])
      } else if (!grepl(":", f, fixed = TRUE)) {
        # One factor of more levels: its contrasts with the first are those of treatment coding.
        treated <- table; contrasts(treated[[f]]) <- contr.treatment(nlevels(table[[f]]))
        simple <- lm(reformulate(f, "value"), treated)
        for (l in seq_len(nlevels(table[[f]]))[-1]) {
          sc <- summary(simple)$coefficients[l, ]; ci <- confint(simple, level = conf)[l, ]
          at <- function(field) sprintf("factors|%s %s|%s", f, levels(table[[f]])[l], field)
          put(at("effect"), sc[1]); put(at("lower"), ci[1]); put(at("upper"), ci[2]); put(at("t"), sc[3]); put(at("p"), sc[4])
        }
      }
      at <- function(field) sprintf("factorTests|%s|%s", term(f), field)
      put(at("f"), tests[f, "F value"]); put(at("df1"), tests[f, "Df"]); put(at("df2"), df.residual(fit))
      put(at("p"), tests[f, "Pr(>F)"])
    }
  }
  c(list(case = row$case), out)
}

write_expected(lapply(seq_len(nrow(input)), one))

# The runs that alone decide whether an interval holds zero: every model is made anew without each row in turn, by qt, lm or (Games and
# Howell) the studentized range, integrated here since qtukey is good to 1e-4 and has nothing below two degrees of freedom. A case for each row that changes the verdict, with the difference and its limits without it.
source("../json.R")
input <- read_input()
conf <- 0.95

range_tail <- function(q, k, df) {
  step <- 0.05; u <- seq(-38 / df - 2, 2.5, by = step); s <- exp(u)
  density <- 2 * exp(df / 2 * log(df / 2) - lgamma(df / 2) + df * u - df * s^2 / 2)
  z <- seq(-9, 9, by = 0.09)
  inner <- outer(q * s, z, function(w, z) k * dnorm(z) * (pnorm(z) - pnorm(z - w))^(k - 1))
  sum(density * pmax(0, 1 - rowSums(inner) * 0.09)) * step
}
range_quantile <- function(conf, k, df) {
  near <- qtukey(conf, k, max(df, 2))
  uniroot(function(q) log(range_tail(q, k, df)) - log(1 - conf), near * c(0.9, 1.1), extendInt = "downX", tol = 1e-10)$root
}

pair <- function(x, y, k) {
  if (length(x) < 2 || length(y) < 2) return(NULL)
  v1 <- var(x) / length(x); v2 <- var(y) / length(y)
  df <- (v1 + v2)^2 / (v1^2 / (length(x) - 1) + v2^2 / (length(y) - 1))
  half <- (if (k == 2) qt((1 + conf) / 2, df) else range_quantile(conf, k, df) / sqrt(2)) * sqrt(v1 + v2)
  mean(y) - mean(x) + c(0, -half, half)
}

# All differences of a table, by name: value, lower, upper.
estimates <- function(t, method, levels) {
  out <- list()
  if (method == "factors") {
    t$skirt <- factor(t$skirt, levels = unique(whole$skirt)); t$gap <- factor(t$gap, levels = unique(whole$gap))
    contrasts(t$skirt) <- matrix(c(-1, 1), 2); contrasts(t$gap) <- matrix(c(-1, 1), 2)
    fit <- lm(value ~ skirt * gap, t)
    for (name in c("skirt1", "gap1", "skirt1:gap1")) out[[gsub(":", " × ", gsub("1", "", name))]] <- 2 * c(coef(fit)[[name]], confint(fit, name, level = conf))
    return(out)
  }
  for (i in seq_along(levels)) for (j in seq_along(levels)) if (i < j) {
    name <- paste(levels[j], levels[i])
    if (method == "blocked") {
      t$g <- relevel(factor(t$variant, levels = levels), ref = levels[i])
      fit <- lm(value ~ day + g, t); term <- paste0("g", levels[j])
      out[[name]] <- c(coef(fit)[[term]], confint(fit, term, level = conf))
    } else out[[name]] <- pair(t$value[t$variant == levels[i]], t$value[t$variant == levels[j]], length(levels))
  }
  out
}

sure <- function(e) e[2] > 0 || e[3] < 0
cases <- list()
for (i in seq_len(nrow(input))) {
  whole <- read.csv(sprintf("tables/%s.csv", input$case[i]), stringsAsFactors = FALSE)
  levels <- unique(whole$variant)
  all <- estimates(whole, input$method[i], levels)
  for (row in seq_len(nrow(whole))) {
    without <- estimates(whole[-row, ], input$method[i], levels)
    for (name in names(without)) {
      e <- without[[name]]
      if (sure(e) != sure(all[[name]])) cases[[length(cases) + 1]] <- list(case = input$case[i], what = name, row = row + 1,
        value = e[1], lower = e[2], upper = e[3], allValue = all[[name]][1], allLower = all[[name]][2], allUpper = all[[name]][3])
    }
  }
}
write_expected(cases)

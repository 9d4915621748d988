# The confidence set of a ratio of means straight from its definition: all r for which the statistic
# |m2 - r m1| / sqrt(s2^2/n2 + r^2 s1^2/n1) does not exceed t at fixed degrees of freedom. No quadratic is solved: the statistic's
# crossings of t are looked for along the whole line, r = tan(angle), and refined with uniroot.
source("../json.R")
input <- read_input()
write_expected(lapply(seq_len(nrow(input)), function(i) {
  baseline <- numbers(input$baseline[i])
  variant <- numbers(input$variant[i])
  confidence <- as.numeric(input$confidence[i])
  m1 <- mean(baseline); v1 <- var(baseline) / length(baseline)
  m2 <- mean(variant); v2 <- var(variant) / length(variant)
  ratio <- m2 / m1
  df <- (v2 + ratio^2 * v1)^2 / (v2^2 / (length(variant) - 1) + ratio^4 * v1^2 / (length(baseline) - 1))
  t <- qt((1 + confidence) / 2, df)
  excess <- function(r) abs(m2 - r * m1) / sqrt(v2 + r^2 * v1) - t
  angles <- sort(c(seq(-pi / 2 + 1e-6, pi / 2 - 1e-6, length.out = 200001), atan(ratio)))
  ratios <- tan(angles)
  inside <- excess(ratios) <= 0
  changes <- which(inside[-1] != inside[-length(inside)])
  crossings <- vapply(changes, function(k) {
    uniroot(excess, ratios[c(k, k + 1)], tol = 1e-15, maxiter = 10000)$root
  }, 0)
  set <- if (length(crossings) == 2 && !inside[1]) "bounded"
    else if (length(crossings) == 2) "complement"
    else if (length(crossings) == 0 && all(inside)) "whole-line"
    else stop("not a set that is expected here: ", input$case[i])
  crossings <- c(crossings, NA, NA)
  list(case = input$case[i], ratio = ratio, degreesOfFreedom = df, set = set, first = crossings[1], second = crossings[2])
}))

# Runs of each variant that show a tenth of the baseline's mean with 80 % power: pooled standard deviation of two groups, then
# power.t.test with strict = TRUE (both sides counted).
source("../json.R")
input <- read_input()
write_expected(lapply(seq_len(nrow(input)), function(i) {
  baseline <- numbers(input$baseline[i]); variant <- numbers(input$variant[i])
  confidence <- as.numeric(input$confidence[i])
  degrees <- length(baseline) + length(variant) - 2
  pooled <- sqrt(((length(baseline) - 1) * var(baseline) + (length(variant) - 1) * var(variant)) / degrees)
  exact <- power.t.test(
    delta = mean(baseline) / 10, sd = pooled, sig.level = 1 - confidence, power = 0.8, strict = TRUE, tol = 1e-12,
    n = NULL
  )$n
  list(case = input$case[i], pooled = pooled, exact = exact, runsOfEach = max(2, ceiling(exact)))
}))

# Equal numbers: power.t.test with strict = TRUE (both sides counted). A fixed baseline: R's pt with ncp, counted up run by run.
source("../json.R")
input <- read_input()
power_with <- function(n1, n2, sd, difference, confidence) {
  df <- n1 + n2 - 2
  critical <- qt((1 + confidence) / 2, df)
  delta <- difference / (sd * sqrt(1 / n1 + 1 / n2))
  pt(critical, df, ncp = delta, lower.tail = FALSE) + pt(-critical, df, ncp = delta)
}
write_expected(lapply(seq_len(nrow(input)), function(i) {
  sd <- as.numeric(input$standardDeviation[i]); difference <- as.numeric(input$difference[i])
  power <- as.numeric(input$power[i]); confidence <- as.numeric(input$confidence[i])
  n1 <- as.numeric(input$baselineRuns[i])
  if (is.na(n1)) {
    exact <- power.t.test(delta = difference, sd = sd, sig.level = 1 - confidence, power = power, strict = TRUE, tol = 1e-12)$n
    whole <- ceiling(exact)
    reached <- power.t.test(n = whole, delta = difference, sd = sd, sig.level = 1 - confidence, strict = TRUE)$power
  } else {
    whole <- 2
    while (power_with(n1, whole, sd, difference, confidence) < power) whole <- whole + 1
    reached <- power_with(n1, whole, sd, difference, confidence)
    exact <- if (whole == 2) 2 else {
      uniroot(function(n) power_with(n1, n, sd, difference, confidence) - power, c(whole - 1, whole), tol = 1e-12)$root
    }
  }
  list(case = input$case[i], runsPerVariant = whole, powerReached = reached, exact = exact)
}))

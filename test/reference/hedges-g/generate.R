source("../json.R")
input <- read_input()
write_expected(lapply(seq_len(nrow(input)), function(i) {
  first <- numbers(input$baseline[i])
  second <- numbers(input$variant[i])
  n1 <- length(first)
  n2 <- length(second)
  m <- n1 + n2 - 2
  ss <- sum((first - mean(first))^2) + sum((second - mean(second))^2)
  d <- (mean(second) - mean(first)) / sqrt(ss / m)
  unit <- sqrt(1 / n1 + 1 / n2)
  t <- d / unit
  tail <- (1 - as.numeric(input$confidence[i])) / 2
  # pt answers noncentralities up to 37.62.
  limit <- function(probability) {
    uniroot(function(ncp) pt(t, m, ncp) - probability, c(-37.6, 37.6), tol = 1e-13)$root
  }
  j <- exp(lgamma(m / 2) - lgamma((m - 1) / 2)) / sqrt(m / 2)
  list(case = input$case[i], correction = j, value = j * d, lower = j * unit * limit(1 - tail),
       upper = j * unit * limit(tail), d = d, dLower = unit * limit(1 - tail), dUpper = unit * limit(tail))
}))

source("../json.R")
input <- read_input()

# Nodes and weights of Gauss and Legendre on (-1, 1), from the eigenvalues of Jacobi's matrix.
order <- 20
off <- seq_len(order - 1) / sqrt(4 * seq_len(order - 1)^2 - 1)
jacobi <- matrix(0, order, order)
jacobi[cbind(1:(order - 1), 2:order)] <- off
jacobi[cbind(2:order, 1:(order - 1))] <- off
eigen_of <- eigen(jacobi, symmetric = TRUE)
nodes <- eigen_of$values
weights <- 2 * eigen_of$vectors[1, ]^2

# The same rule on each piece between neighbouring breaks.
composite <- function(breaks) {
  half <- diff(breaks) / 2
  middle <- breaks[-1] - half
  list(x = as.vector(outer(nodes, half) + rep(middle, each = order)), w = as.vector(outer(weights, half)))
}

# P(range of r standard normal draws > w), by the place of the least draw y:
# r int phi(y) {[1 - Phi(y)]^(r-1) - [Phi(y + w) - Phi(y)]^(r-1)} dy
range_tail <- function(w, r) {
  rule <- composite(seq(-w / 2 - 10, -w / 2 + 9, by = 1))
  y <- rule$x
  above <- pnorm(y, lower.tail = FALSE)
  beyond <- pnorm(y + w, lower.tail = FALSE)
  all_above <- (r - 1) * pnorm(y, lower.tail = FALSE, log.p = TRUE)
  r * sum(rule$w * dnorm(y) * exp(all_above) * -expm1((r - 1) * log1p(-pmin(1, beyond / above))))
}

# P(Q > q): over s, with s^2 chi-squared over df, on pieces that grow from the smallest s that matters.
studentized_range_tail <- function(q, r, df) {
  if (is.infinite(df)) return(range_tail(q, r))
  largest <- sqrt(1 + 100 / df + 15 / sqrt(df))
  smallest <- min(largest / 1e3, 1 / q) * 1e-14^(1 / df) * 1e-3^(1 / df)
  edges <- exp(seq(log(smallest), log(largest), length.out = max(60, ceiling(log(largest / smallest) * max(3, sqrt(df))))))
  rule <- composite(edges)
  s <- rule$x
  log_density <- log(2) + (df / 2) * log(df / 2) - lgamma(df / 2) + (df - 1) * log(s) - df * s^2 / 2
  keep <- q * s < 54 & log_density > -600
  sum(rule$w[keep] * exp(log_density[keep]) * vapply(q * s[keep], range_tail, 0, r = r))
}

write_expected(lapply(seq_len(nrow(input)), function(i) {
  q <- as.numeric(input$q[i])
  groups <- as.numeric(input$groups[i])
  df <- as.numeric(input$df[i])
  list(case = input$case[i], q = q, groups = groups, df = if (is.infinite(df)) NA else df,
       tail = studentized_range_tail(q, groups, df), ptukey = suppressWarnings(ptukey(q, groups, df, lower.tail = FALSE)))
}))

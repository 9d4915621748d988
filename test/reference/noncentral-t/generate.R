# P(T <= t) twice: by R's own pt (AS 243; NA beyond its noncentrality of 37.62, where it turns to an approximation), and by numerical
# integration of the definition, P(Z <= t s - delta) over s = sqrt(chi2/nu), which shares nothing with the series.
source("../json.R")
input <- read_input()
integrated <- function(t, df, delta) {
  density <- function(s) 2 * s * df * dchisq(df * s^2, df)
  # In pieces, so that the integrator cannot miss a narrow peak: quantiles of s, and the step of P(Z <= t s - delta) in s.
  ends <- sqrt(c(qchisq(1e-25, df), qchisq(1e-18, df, lower.tail = FALSE)) / df)
  breaks <- sqrt(qchisq(c(1e-15, 1e-6, 0.01, 0.2, 0.5, 0.8, 0.99, 1 - 1e-6), df) / df)
  if (t != 0) breaks <- c(breaks, (delta + c(-8, -3, 0, 3, 8)) / t)
  breaks <- sort(unique(c(ends, breaks[breaks > ends[1] & breaks < ends[2]])))
  pieces <- vapply(seq_len(length(breaks) - 1), function(k) {
    integrate(function(s) pnorm(t * s - delta) * density(s), breaks[k], breaks[k + 1],
              rel.tol = 1e-12, abs.tol = 1e-15, subdivisions = 20000, stop.on.error = FALSE)$value
  }, 0)
  sum(pieces)
}
write_expected(lapply(seq_len(nrow(input)), function(i) {
  t <- as.numeric(input$t[i]); df <- as.numeric(input$df[i]); delta <- as.numeric(input$noncentrality[i])
  list(case = input$case[i], t = t, df = df, noncentrality = delta,
       pt = if (abs(delta) < 37) suppressWarnings(pt(t, df, ncp = delta)) else NA,
       integrated = integrated(t, df, delta))
}))

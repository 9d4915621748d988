# Probability that the true mean lies in each tier: mean + t(n - 1) s / sqrt(n) with a flat prior, by pt. "more": as good as the
# threshold or higher; "less": or lower. Also the end of the t interval that is the worse one.
source("../json.R")
input <- read_input()
write_expected(lapply(seq_len(nrow(input)), function(i) {
  values <- numbers(input$values[i]); thresholds <- numbers(input$thresholds[i]); confidence <- as.numeric(input$confidence[i])
  n <- length(values); se <- sd(values) / sqrt(n)
  more <- input$better[i] == "more"
  z <- (thresholds - mean(values)) / se
  reaches <- if (more) pt(z, n - 1, lower.tail = FALSE) else pt(z, n - 1)
  at_least <- c(1, reaches, 0)
  probabilities <- at_least[-length(at_least)] - at_least[-1]
  half <- qt((1 + confidence) / 2, n - 1) * se
  worse <- if (more) mean(values) - half else mean(values) + half
  reached <- function(value) sum(if (more) value >= thresholds else value <= thresholds)
  fields <- list(case = input$case[i], tier = reached(mean(values)), limit = worse, tierAtLimit = reached(worse))
  for (k in seq_along(probabilities)) fields[[paste0("p", k - 1)]] <- probabilities[k]
  fields
}))

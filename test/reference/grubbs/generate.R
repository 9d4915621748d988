source("../json.R")
input <- read_input()
write_expected(lapply(seq_len(nrow(input)), function(i) {
  values <- numbers(input$values[i])
  n <- length(values)
  distance <- abs(values - mean(values)) / sd(values)
  g <- max(distance)
  t <- sqrt(n * (n - 2) * g^2 / ((n - 1)^2 - n * g^2))
  list(case = input$case[i], statistic = g, suspect = which.max(distance) - 1,
       p = min(1, 2 * n * pt(t, n - 2, lower.tail = FALSE)))
}))

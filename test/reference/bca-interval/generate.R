source("../json.R")
library(boot)
input <- read_input()
set.seed(20260101)
cases <- lapply(seq_len(nrow(input)), function(i) {
  values <- numbers(input$values[i])
  confidence <- as.numeric(input$confidence[i])
  n <- length(values)
  if (input$method[i] == "enumerated") {
    # All n^n resamples, each once: the bootstrap without resampling error, its limits worked by boot's own function.
    places <- as.matrix(expand.grid(rep(list(seq_len(n)), n)))
    means <- rowMeans(matrix(values[places], ncol = n))
    object <- boot(values, function(x, j) mean(x[j]), R = 2)
    # Equal means, whatever the order of their summands.
    object$t <- matrix(round(means, 9), ncol = 1)
    object$t0 <- round(mean(values), 9)
    object$R <- length(means)
    deviations <- values - mean(values)
    limits <- boot.ci(object, conf = confidence, type = "bca", L = deviations)$bca[4:5]
  } else {
    object <- boot(values, function(x, j) mean(x[j]), R = 100000)
    deviations <- values - mean(values)
    limits <- boot.ci(object, conf = confidence, type = "bca", L = deviations)$bca[4:5]
  }
  list(case = input$case[i], lower = limits[1], upper = limits[2],
       biasCorrection = qnorm(mean(object$t < object$t0)),
       acceleration = sum(deviations^3) / (6 * sum(deviations^2)^1.5),
       standardError = sd(values) / sqrt(n))
})
write_expected(cases)

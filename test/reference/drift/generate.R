source("../json.R")
input <- read_input()
write_expected(lapply(seq_len(nrow(input)), function(i) {
  runs <- data.frame(value = numbers(input$values[i]), order = numbers(input$orders[i]),
                     variant = factor(strsplit(input$levels[i], " ")[[1]]))
  fit <- if (nlevels(runs$variant) > 1) lm(value ~ variant + order, runs) else lm(value ~ order, runs)
  row <- summary(fit)$coefficients["order", ]
  list(case = input$case[i], slope = row[[1]], standardError = row[[2]], t = row[[3]], p = row[[4]],
       degreesOfFreedom = fit$df.residual)
}))

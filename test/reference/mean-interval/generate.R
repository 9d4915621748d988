source("../json.R")
input <- read_input()
write_expected(lapply(seq_len(nrow(input)), function(i) {
  values <- numbers(input$values[i])
  result <- t.test(values, conf.level = as.numeric(input$confidence[i]))
  list(case = input$case[i], n = length(values), mean = mean(values), standardDeviation = sd(values),
       standardError = sd(values) / sqrt(length(values)), degreesOfFreedom = unname(result$parameter),
       lower = result$conf.int[1], upper = result$conf.int[2])
}))

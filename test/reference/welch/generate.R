source("../json.R")
input <- read_input()
write_expected(lapply(seq_len(nrow(input)), function(i) {
  baseline <- numbers(input$baseline[i])
  variant <- numbers(input$variant[i])
  result <- t.test(variant, baseline, var.equal = FALSE, conf.level = as.numeric(input$confidence[i]))
  list(case = input$case[i], difference = mean(variant) - mean(baseline), standardError = result$stderr,
       t = unname(result$statistic), degreesOfFreedom = unname(result$parameter), p = result$p.value,
       lower = result$conf.int[1], upper = result$conf.int[2])
}))

source("../json.R")
input <- read_input()
write_expected(lapply(seq_len(nrow(input)), function(i) {
  baseline <- log(numbers(input$baseline[i]))
  variant <- log(numbers(input$variant[i]))
  confidence <- as.numeric(input$confidence[i])
  difference <- mean(variant) - mean(baseline)
  # t.test refuses a group pair without scatter only; a single constant group is an ordinary case.
  result <- t.test(variant, baseline, var.equal = FALSE, conf.level = confidence)
  list(case = input$case[i], ratio = exp(difference), t = unname(result$statistic),
       degreesOfFreedom = unname(result$parameter), p = result$p.value,
       lower = exp(result$conf.int[1]), upper = exp(result$conf.int[2]))
}))

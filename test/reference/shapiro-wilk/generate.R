source("../json.R")
input <- read_input()
write_expected(lapply(seq_len(nrow(input)), function(i) {
  result <- shapiro.test(numbers(input$values[i]))
  list(case = input$case[i], statistic = unname(result$statistic), p = result$p.value)
}))

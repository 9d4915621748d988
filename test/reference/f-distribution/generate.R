source("../json.R")
input <- read_input()
write_expected(lapply(seq_len(nrow(input)), function(i) {
  x <- as.numeric(input$x[i])
  df1 <- as.numeric(input$df1[i])
  df2 <- as.numeric(input$df2[i])
  value <- if (input$kind[i] == "quantile") qf(x, df1, df2, lower.tail = FALSE) else pf(x, df1, df2, lower.tail = FALSE)
  list(case = input$case[i], kind = input$kind[i], x = x, df1 = df1, df2 = df2, value = value)
}))

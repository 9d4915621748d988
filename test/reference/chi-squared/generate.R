source("../json.R")
input <- read_input()
write_expected(lapply(seq_len(nrow(input)), function(i) {
  x <- as.numeric(input$x[i])
  df <- as.numeric(input$df[i])
  value <- if (input$kind[i] == "quantile") qchisq(x, df, lower.tail = FALSE) else pchisq(x, df, lower.tail = FALSE)
  list(case = input$case[i], kind = input$kind[i], x = x, df = df, value = value)
}))

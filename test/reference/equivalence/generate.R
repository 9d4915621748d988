source("../json.R")
input <- read_input()
write_expected(lapply(seq_len(nrow(input)), function(i) {
  first <- numbers(input$baseline[i])
  second <- numbers(input$variant[i])
  margin <- as.numeric(input$margin[i])
  alpha <- 1 - as.numeric(input$confidence[i])
  above <- t.test(second, first, mu = -margin, alternative = "greater")$p.value
  below <- t.test(second, first, mu = margin, alternative = "less")$p.value
  interval <- t.test(second, first, conf.level = 1 - 2 * alpha)$conf.int
  p <- max(above, below)
  list(case = input$case[i], p = p, equivalent = if (p < alpha) "yes" else "no", lower = interval[1], upper = interval[2])
}))

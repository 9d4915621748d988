source("../json.R")
input <- read_input()
cases <- list()
for (i in seq_len(nrow(input))) {
  p <- suppressWarnings(numbers(input$p[i]))
  adjusted <- p.adjust(p, "holm")
  for (j in seq_along(p)) {
    cases[[length(cases) + 1]] <- list(case = input$case[i], index = j - 1, p = p[j], adjusted = adjusted[j])
  }
}
write_expected(cases)

source("../json.R")
input <- read_input()
# Every arrangement of the runs, tied values sharing their mean rank.
enumerated <- function(first, second) {
  ranks <- rank(c(first, second))
  size <- length(second)
  sums <- combn(length(ranks), size, function(places) sum(ranks[places]))
  observed <- sum(ranks[length(first) + seq_len(size)])
  min(1, 2 * min(mean(sums <= observed + 1e-9), mean(sums >= observed - 1e-9)))
}
write_expected(lapply(seq_len(nrow(input)), function(i) {
  first <- numbers(input$first[i])
  second <- numbers(input$second[i])
  ties <- any(duplicated(c(first, second)))
  small <- length(first) < 50 && length(second) < 50
  tool <- wilcox.test(second, first, exact = small && !ties, correct = TRUE)
  p <- if (small && ties) enumerated(first, second) else tool$p.value
  list(case = input$case[i], u = unname(tool$statistic), p = p,
       smallestP = 2 / choose(length(first) + length(second), length(first)),
       enumeratedP = if (small) enumerated(first, second) else NA,
       # What wilcox.test gives by itself where there are ties.
       normalP = wilcox.test(second, first, exact = FALSE, correct = TRUE)$p.value)
}))

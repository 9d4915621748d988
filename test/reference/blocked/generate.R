source("../json.R")
input <- read_input()
write_expected(lapply(seq_len(nrow(input)), function(i) {
  words <- function(text) strsplit(text, " ")[[1]]
  runs <- data.frame(value = numbers(input$values[i]), level = words(input$levels[i]), block = words(input$blocks[i]))
  levels <- unique(runs$level)
  runs$level <- factor(runs$level, levels)
  runs$block <- factor(runs$block)
  fit <- lm(value ~ block + level, runs)
  test <- anova(lm(value ~ block, runs), fit)
  result <- list(case = input$case[i], variantF = test$F[2], df1 = test$Df[2], df2 = fit$df.residual, p = test$`Pr(>F)`[2],
                 residualDeviation = summary(fit)$sigma)
  t <- qt((1 + as.numeric(input$confidence[i])) / 2, fit$df.residual)
  for (first in seq_along(levels)) for (second in seq_along(levels)) if (first < second) {
    # The model with the pair's first level as the base has the pair as a coefficient.
    based <- summary(lm(value ~ block + relevel(level, levels[first]), runs))$coefficients
    row <- based[paste0("relevel(level, levels[first])", levels[second]), ]
    name <- function(what) paste0(what, levels[first], levels[second])
    result[[name("difference")]] <- row[[1]]
    result[[name("standardError")]] <- row[[2]]
    result[[name("lower")]] <- row[[1]] - t * row[[2]]
    result[[name("upper")]] <- row[[1]] + t * row[[2]]
    result[[name("p")]] <- row[[4]]
  }
  result
}))

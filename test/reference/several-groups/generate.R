source("../json.R")
input <- read_input()

# Fields missing where R has no answer.
from_anova <- function(case, method, table) {
  list(case = case, method = method, f = table[1, "F value"], df1 = table[1, "Df"], df2 = table[2, "Df"],
       p = table[1, "Pr(>F)"])
}

cases <- list()
add <- function(case) cases[[length(cases) + 1]] <<- case

for (i in seq_len(nrow(input))) {
  name <- input$case[i]
  groups <- lapply(strsplit(input$groups[i], ";")[[1]], numbers)
  confidence <- as.numeric(input$confidence[i])
  count <- length(groups)
  value <- unlist(groups)
  group <- factor(rep(seq_len(count), lengths(groups)))

  add(from_anova(name, "anova", anova(lm(value ~ group))))

  # Levene's test centred at the median, as Brown and Forsythe define it.
  distance <- abs(value - ave(value, group, FUN = median))
  add(from_anova(name, "brown-forsythe", anova(lm(distance ~ group))))

  if (all(lengths(groups) > 1)) {
    welch <- oneway.test(value ~ group, var.equal = FALSE)
    add(list(case = name, method = "welch-anova", f = unname(welch$statistic), df1 = unname(welch$parameter[1]),
             df2 = unname(welch$parameter[2]), p = welch$p.value))
  }

  # TukeyHSD names its rows "second-first" and gives second minus first.
  fit <- aov(value ~ group)
  tukey <- TukeyHSD(fit, conf.level = confidence)$group
  for (row in rownames(tukey)) {
    pair <- as.integer(strsplit(row, "-")[[1]])
    error <- sqrt(deviance(fit) / df.residual(fit) * sum(1 / lengths(groups)[pair]) / 2)
    add(list(case = name, method = "tukey", first = pair[2] - 1, second = pair[1] - 1, difference = tukey[row, "diff"],
             lower = tukey[row, "lwr"], upper = tukey[row, "upr"], degreesOfFreedom = df.residual(fit), error = error,
             p = tukey[row, "p adj"]))
  }

  # Games and Howell's comparison from its definition: R's base packages have none.
  for (first in seq_len(count - 1)) for (second in (first + 1):count) {
    one <- groups[[first]]
    other <- groups[[second]]
    if (length(one) < 2 || length(other) < 2) next
    u <- var(one) / length(one)
    v <- var(other) / length(other)
    df <- (u + v)^2 / (u^2 / (length(one) - 1) + v^2 / (length(other) - 1))
    error <- sqrt((u + v) / 2)
    difference <- mean(other) - mean(one)
    half <- qtukey(confidence, count, df) * error
    add(list(case = name, method = "games-howell", first = first - 1, second = second - 1, difference = difference,
             lower = difference - half, upper = difference + half, degreesOfFreedom = df, error = error,
             p = ptukey(abs(difference) / error, count, df, lower.tail = FALSE)))
  }
}
write_expected(cases)

source("../json.R")
options(contrasts = c("contr.sum", "contr.poly"))
input <- read_input()
write_expected(lapply(seq_len(nrow(input)), function(i) {
  words <- function(text) strsplit(text, " ")[[1]]
  runs <- data.frame(value = numbers(input$values[i]))
  for (name in c("skirt", "gap", "chamber")) if (input[[name]][i] != "") {
    column <- words(input[[name]][i])
    runs[[name]] <- factor(column, unique(column))
  }
  names <- setdiff(names(runs), "value")
  fit <- lm(as.formula(paste("value ~ (", paste(names, collapse = " + "), ")^2")), runs)
  tests <- drop1(fit, ~ ., test = "F")
  t <- qt((1 + as.numeric(input$confidence[i])) / 2, fit$df.residual)
  result <- list(case = input$case[i], df2 = fit$df.residual, residualDeviation = summary(fit)$sigma)
  add <- function(name, weights) {
    estimate <- sum(weights * coef(fit))
    error <- sqrt(drop(t(weights) %*% vcov(fit) %*% weights))
    result[[paste(name, "effect")]] <<- estimate
    result[[paste(name, "lower")]] <<- estimate - t * error
    result[[paste(name, "upper")]] <<- estimate + t * error
    result[[paste(name, "t")]] <<- estimate / error
    result[[paste(name, "p")]] <<- 2 * pt(-abs(estimate / error), fit$df.residual)
  }
  for (term in rownames(tests)[-1]) {
    label <- gsub(":", " x ", term)
    result[[paste(label, "f")]] <- tests[term, "F value"]
    result[[paste(label, "df1")]] <- tests[term, "Df"]
    result[[paste(label, "testP")]] <- tests[term, "Pr(>F)"]
  }
  assigned <- attr(model.matrix(fit), "assign")
  terms <- attr(terms(fit), "term.labels")
  for (name in names) {
    levels <- levels(runs[[name]])
    codes <- contr.sum(length(levels))
    for (k in seq_along(levels)[-1]) {
      weights <- numeric(length(coef(fit)))
      weights[assigned == match(name, terms)] <- codes[k, ] - codes[1, ]
      add(paste(name, levels[k]), weights)
    }
  }
  for (term in terms[grepl(":", terms)]) {
    pair <- strsplit(term, ":")[[1]]
    if (nlevels(runs[[pair[1]]]) == 2 && nlevels(runs[[pair[2]]]) == 2) {
      weights <- numeric(length(coef(fit)))
      weights[assigned == match(term, terms)] <- 2
      add(gsub(":", " x ", term), weights)
    }
  }
  result
}))

# Writes expected.json: base R has no JSON, so numbers go out by sprintf with 17 significant digits, which is every bit of a
# double. Sourced by the generate.R of each folder, which Rscript runs inside its folder.

json_value <- function(value) {
  if (length(value) != 1) stop("one value expected")
  if (is.na(value)) return("null")
  if (is.character(value)) return(paste0("\"", value, "\""))
  if (!is.finite(value)) stop("not a finite number")
  # The exponent without plus and leading zeros, as the formatter writes it.
  sub("e([-]?)[+]?0*", "e\\1", sprintf("%.17g", value))
}

# A field a line, as the project's formatter keeps it.
json_object <- function(fields) {
  lines <- sprintf("      \"%s\": %s", names(fields), vapply(fields, json_value, ""))
  paste0("    {\n", paste(lines, collapse = ",\n"), "\n    }")
}

# cases: a list of named lists of single numbers or texts; NA becomes null.
write_expected <- function(cases) {
  head <- sprintf("  \"tool\": \"%s\",", R.version.string)
  body <- paste(vapply(cases, json_object, ""), collapse = ",\n")
  writeLines(c("{", head, "  \"cases\": [", body, "  ]", "}"), "expected.json")
}

read_input <- function() read.csv("input.csv", colClasses = "character")

# "1.5 2 3" -> c(1.5, 2, 3)
numbers <- function(text) as.numeric(strsplit(trimws(text), " +")[[1]])

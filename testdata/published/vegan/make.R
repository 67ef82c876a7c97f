# Made the tables and figures in this folder. Debian packages r-base-core and
# r-cran-vegan; run as: Rscript make.R
library(vegan)
data(BCI); data(dune)
write.csv(BCI, "BCI.csv", row.names = FALSE, quote = FALSE)
write.csv(dune, "dune.csv", row.names = FALSE, quote = FALSE)
out <- data.frame(table = character(), rows = character(), measure = character(), value = character())
put <- function(table, rows, measure, value)
  out[nrow(out) + seq_along(value), ] <<- data.frame(table, rows, measure, sprintf("%.17g", as.numeric(value)))
for (t in c("BCI", "dune")) {
  x <- get(t); rows <- seq_len(nrow(x)); n <- if (t == "BCI") 100 else 10
  put(t, rows, "specnumber", specnumber(x))
  put(t, rows, "shannon", diversity(x, "shannon"))
  put(t, rows, "simpson", diversity(x, "simpson"))
  put(t, rows, "pielou", diversity(x, "shannon") / log(specnumber(x)))
  put(t, rows, paste0("rarefy-", n), rarefy(x, n))
  for (last in c(2, 3, 5, 10, nrow(x))) {
    p <- specpool(x[1:last, ])
    put(t, paste0("1-", last), "chao", p$chao)
    put(t, paste0("1-", last), "chao.se", p$chao.se)
    a <- specaccum(x[1:last, ], method = "exact")
    put(t, paste0("1-", last), paste0("specaccum-", a$sites), a$richness)
  }
}
# Mann-Kendall by base R: S from the signs of all pairs, the p-value exact
# without ties, else normal with correction for ties and continuity.
series <- list(rising = c(12, 15, 14, 18, 21, 20), flat = c(5.1, 4.9, 5.0, 5.2), tied = c(3, 3, 5, 4, 4, 6, 6, 7, 2, 8, 8, 9),
               falling = c(9, 8, 7, 6, 5), long = c(1, 4, 2, 8, 5, 7, 11, 9, 14, 10, 13, 16, 12, 18, 15))
for (s in names(series)) {
  y <- series[[s]]; x <- seq_along(y); d <- outer(y, y, "-"); dx <- outer(x, x, "-")
  k <- suppressWarnings(cor.test(x, y, method = "kendall", exact = !anyDuplicated(y), continuity = TRUE))
  put("series", s, "S", sum(sign(d) * sign(dx)) / 2)
  put("series", s, "p", k$p.value)
  put("series", s, "tau", k$estimate)
  put("series", s, "sen", median((d / dx)[dx > 0]))
  put("series", s, paste0("y-", x), y)
}
write.csv(out, "values.csv", row.names = FALSE, quote = FALSE)
writeLines(c("# Figures by general-purpose statistics software on open data: R's vegan on its own",
  "# tables BCI (Barro Colorado Island trees) and dune (dune meadow plants), and base R",
  "# on series of our own. make.R made them.",
  sprintf("vegan = \"%s\"", packageVersion("vegan")), sprintf("r = \"%s\"", getRversion())), "versions.toml")

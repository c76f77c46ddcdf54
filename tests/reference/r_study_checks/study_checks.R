# What the checks of a time study rest on, by R: qf, pchisq, pt, qt, t.test, chisq.test, lm and psych::ICC.
# Run: Rscript study_checks.R > values.csv
suppressMessages(library(psych))
put <- function(key, value) cat(key, ",", format(value, digits = 15, scientific = TRUE), "\n", sep = "")

# Distributions. R's pt is good for a shift up to 37.62.
for (x in c(0.5, 9, 40)) put(sprintf("chi_square.%g.9", x), pchisq(x, 9, lower.tail = FALSE))
put("f_quantile.0.975.5.18", qf(0.975, 5, 18))
put("f_quantile.0.025.3.7.5", qf(0.025, 3, 7.5))
for (a in list(c(1.5, 9, 2), c(-0.7, 4, 1.3), c(12, 42, 8.4), c(30, 199, 28))) {
  put(sprintf("noncentral_t.%g.%g.%g", a[1], a[2], a[3]), pt(a[1], a[2], a[3]))
}

# One-sided tolerance factors: k = qt(confidence, n - 1, sqrt(n) qnorm(coverage)) / sqrt(n).
for (a in list(c(2, 0.9, 0.95), c(5, 0.95, 0.95), c(10, 0.95, 0.95), c(43, 0.9, 0.99), c(60, 0.99, 0.9),
               c(200, 0.95, 0.95), c(8, 0.5, 0.95), c(12, 0.9, 0.05))) {
  k <- qt(a[3], a[1] - 1, sqrt(a[1]) * qnorm(a[2])) / sqrt(a[1])
  put(sprintf("tolerance.%g.%g.%g", a[1], a[2], a[3]), k)
}

# Share below a limit: mean 0, sd 1; the shifts at which the seen t is 5 % or 95 %, by uniroot.
for (a in list(c(6, 1.2), c(25, 2.1), c(80, -0.4), c(150, 2.5))) {
  n <- a[1]; t <- sqrt(n) * a[2]
  shift <- function(p) uniroot(function(d) pt(t, n - 1, d) - p, c(-37, 37), tol = 1e-13)$root
  put(sprintf("share.%g.%g.low", n, a[2]), pnorm(shift(0.95) / sqrt(n)))
  put(sprintf("share.%g.%g.high", n, a[2]), pnorm(shift(0.05) / sqrt(n)))
}

# Equivalence of two samples and of pairs: the data set sleep, margin 4 hours (Welch) and 2.4 hours (pairs).
g1 <- sleep$extra[sleep$group == 1]; g2 <- sleep$extra[sleep$group == 2]
tost <- function(key, margin, paired) {
  one <- function(mu, side) t.test(g1, g2, mu = mu, alternative = side, paired = paired)
  both <- t.test(g1, g2, paired = paired, conf.level = 0.90)
  put(paste0(key, ".difference"), if (paired) both$estimate[[1]] else both$estimate[[1]] - both$estimate[[2]])
  put(paste0(key, ".u"), both$stderr)
  put(paste0(key, ".df"), both$parameter[[1]])
  put(paste0(key, ".p_lower"), one(-margin, "greater")$p.value)
  put(paste0(key, ".p_upper"), one(margin, "less")$p.value)
  put(paste0(key, ".low"), both$conf.int[1])
  put(paste0(key, ".high"), both$conf.int[2])
}
tost("welch", 4, FALSE)
tost("paired", 2.4, TRUE)

# Last digits: counts of 0 to 9.
digits <- c(31, 12, 18, 9, 14, 27, 11, 13, 16, 9)
test <- chisq.test(digits)
put("digits.chi_square", test$statistic[[1]])
put("digits.p", test$p.value)

# Straight line: Anscombe's first set, R's data set anscombe.
line <- summary(lm(y1 ~ x1, anscombe))
put("line.intercept", line$coefficients[1, 1])
put("line.slope", line$coefficients[2, 1])
put("line.intercept_se", line$coefficients[1, 2])
put("line.slope_se", line$coefficients[2, 2])
put("line.t", line$coefficients[2, 3])
put("line.p", line$coefficients[2, 4])
put("line.residual_sd", line$sigma)
put("line.r", cor(anscombe$x1, anscombe$y1))

# Intraclass correlations of the table of Shrout and Fleiss, and of seven invented films rated by three observers.
ratings <- list(
  shrout_fleiss = rbind(c(9, 2, 5, 8), c(6, 1, 3, 2), c(8, 4, 6, 8), c(7, 1, 2, 6), c(10, 5, 6, 9), c(6, 2, 4, 7)),
  films = rbind(c(95, 100, 95), c(110, 115, 105), c(80, 90, 85), c(120, 120, 110), c(100, 100, 100), c(90, 95, 90),
                c(105, 115, 110)))
for (set in names(ratings)) {
  icc <- ICC(ratings[[set]], lmer = FALSE)$results
  for (i in 1:3) {
    put(sprintf("icc.%s.%d.value", set, i), icc[i, 2])
    put(sprintf("icc.%s.%d.low", set, i), icc[i, 7])
    put(sprintf("icc.%s.%d.high", set, i), icc[i, 8])
  }
}

# Exact interval of each limit of agreement: the quantile mean + z sd of a normal population, from 17 differences.
n <- 17; z <- 1.96
put("agreement.17.1.96.inner", qt(0.025, n - 1, sqrt(n) * z) / sqrt(n))
put("agreement.17.1.96.outer", qt(0.975, n - 1, sqrt(n) * z) / sqrt(n))

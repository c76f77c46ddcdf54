# Checks of a stopwatch study, by R: lm, t.test and psych::ICC.
# Run: Rscript content_checks.R > values.csv
suppressMessages(library(psych))
put <- function(key, value) cat(key, ",", format(value, digits = 15, scientific = TRUE), "\n", sep = "")

# Flat rating: two operators, ten cycles each; the second takes 3 s longer.
i <- 1:20
operator <- factor(rep(1:2, each = 10))
raw <- 50 + 4 * sin(i) + ifelse(i > 10, 3, 0)
rating <- 1 + 0.05 * cos(3 * i)
fit <- lm(log(raw * rating) ~ log(raw) + operator)
put("rating.slope", coef(fit)[["log(raw)"]])
put("rating.slope_low", confint(fit)["log(raw)", 1])
put("rating.slope_high", confint(fit)["log(raw)", 2])

# Two observers: peak flow of 17 persons by two meters (Bland & Altman 1986).
large <- c(494, 395, 516, 434, 476, 557, 413, 442, 650, 433, 417, 656, 267, 478, 178, 423, 427)
mini <- c(512, 430, 520, 428, 500, 600, 364, 380, 658, 445, 432, 626, 260, 477, 259, 350, 451)
put("pairs.difference", mean(large - mini))
put("pairs.lower", mean(large - mini) - 1.96 * sd(large - mini))
put("pairs.upper", mean(large - mini) + 1.96 * sd(large - mini))
icc <- ICC(cbind(large, mini), lmer = FALSE)$results
put("pairs.icc", icc$ICC[icc$type == "ICC2"])

# Warm-up: ln of first over rest on six days.
ratio <- c(1.031, 1.044, 1.027, 1.052, 1.038, 1.035)
t <- t.test(log(ratio))
put("warm_up.ratio", exp(mean(log(ratio))))
put("warm_up.low", exp(t$conf.int[1]))
put("warm_up.high", exp(t$conf.int[2]))

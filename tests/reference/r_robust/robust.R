# Robust curves and tests of residuals, by R: MASS::rlm (Huber's psi, k = 1.345, scale by median |residual|/0.6745),
# Box.test, t.test. Run: Rscript robust.R > values.csv
suppressMessages(library(MASS))
put <- function(key, value) cat(key, ",", format(value, digits = 15, scientific = TRUE), "\n", sep = "")

# 49 invented times, own cycles 1 to 49: a fall with a wave on it, five cycles held up. cycles.csv has them.
data <- read.csv("cycles.csv")
huber <- function(formula) rlm(formula, data = data, psi = psi.huber, k = 1.345, scale.est = "MAD", acc = 1e-12, maxit = 200)
level <- huber(log(seconds) ~ 1)
put("constant.ln_c", coef(level)[[1]])
put("constant.scale", level$s)
power <- huber(log(seconds) ~ log(n))
put("power.ln_a", coef(power)[[1]])
put("power.b", -coef(power)[[2]])
put("power.scale", power$s)
least <- lm(log(seconds) ~ log(n), data)
put("power.least_squares_b", -coef(least)[[2]])

# Lag-1 of what is left around the constant: one stretch.
left <- log(data$seconds) - mean(log(data$seconds))
put("dependence.lag1", acf(left, plot = FALSE, lag.max = 1)$acf[2])
put("dependence.p", Box.test(left, lag = 1, type = "Ljung-Box")$p.value)

# Mean of six days' differences of ln times, as a ratio.
days <- c(0.041, 0.032, 0.055, 0.048, 0.029, 0.037)
test <- t.test(days)
put("warm_up.ratio", exp(test$estimate[[1]]))
put("warm_up.low", exp(test$conf.int[1]))
put("warm_up.high", exp(test$conf.int[2]))

# Effects of three treatments within four blocks of unequal size, weighted mean 0; blocked.csv has the values.
blocked <- read.csv("blocked.csv")
fit <- lm(y ~ factor(block) + factor(treatment), blocked)
weights <- c(0.5, 0.3, 0.2)
k <- length(coef(fit))
for (t in 1:3) {
  contrast <- rep(0, k)
  contrast[(k - 1):k] <- -weights[2:3]
  if (t > 1) contrast[k - 3 + t] <- contrast[k - 3 + t] + 1
  put(sprintf("blocked.effect.%d", t), sum(contrast * coef(fit)))
  put(sprintf("blocked.se.%d", t), sqrt(drop(contrast %*% vcov(fit) %*% contrast)))
}
put("blocked.df", fit$df.residual)
put("blocked.residual_sd", summary(fit)$sigma)

# One person beside five: t with 4 degrees of freedom, s sqrt(1 + 1/5) (Crawford & Howell 1998), ln of invented means.
own <- log(12.6); peers <- log(c(10.9, 11.3, 10.4, 11.0, 11.6))
reach <- qt(0.975, 4) * sd(peers) * sqrt(1 + 1 / 5)
put("beside_five.ratio", exp(own - mean(peers)))
put("beside_five.low", exp(own - mean(peers) - reach))
put("beside_five.high", exp(own - mean(peers) + reach))

# Five maximum-likelihood fits of practice curves to 2,000 simulated cycles and one profile, by optim. Prints seconds.
d <- read.csv(commandArgs(TRUE)[1])[1:2000, ]
x <- d$n; ly <- log(d$y)
curves <- list(
  constant = list(m = function(p) rep(p[1], length(x)), start = c(50)),
  power = list(m = function(p) p[1] * x^-exp(p[2]), start = c(80, log(0.1))),
  power_plateau = list(m = function(p) p[1] + p[2] * x^-exp(p[3]), start = c(45, 40, log(0.5))),
  exponential_plateau = list(m = function(p) p[1] + p[2] * exp(-x / exp(p[3])), start = c(50, 20, log(200))),
  hyperbolic_plateau = list(m = function(p) p[1] + p[2] / (1 + x / exp(p[3])), start = c(48, 40, log(30))))
minus_log_lik <- function(p, curve) {
  m <- curve$m(p[-1])
  if (any(!is.finite(m)) || any(m <= 0)) return(1e10)
  -sum(dnorm(ly, log(m), exp(p[1]), log = TRUE))
}
fit_one <- function(curve) {
  r <- optim(c(log(0.1), curve$start), minus_log_lik, curve = curve, control = list(maxit = 5000, reltol = 1e-10))
  optim(r$par, minus_log_lik, curve = curve, method = "BFGS", control = list(maxit = 500, reltol = 1e-10))
}
work <- function() {
  fits <- lapply(curves, fit_one)
  # The level at 4,000 of the power with a floor held at 20 values.
  best <- fits$power_plateau$par
  at <- best[2] + best[3] * 4000^-exp(best[4])
  held <- function(p, level) { # spread, floor, exponent; the excess from the level
    a <- (level - p[2]) / 4000^-exp(p[3])
    minus_log_lik(c(p[1], p[2], a, p[3]), curves$power_plateau)
  }
  for (level in at * seq(0.96, 1.03, length.out = 20))
    optim(c(best[1], min(best[2], level - 0.5), best[4]), held, level = level, control = list(maxit = 5000, reltol = 1e-10))
  invisible(fits)
}
times <- sapply(1:3, function(i) system.time(work())[["elapsed"]])
cat("optim", median(times) * 1000, "\n")

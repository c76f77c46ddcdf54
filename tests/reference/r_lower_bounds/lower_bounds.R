# Lower bounds by R: survreg (survival) on the constant and the log-linear model, optim on a curve with a floor; and the
# hyperbolic and two-phase curves by nls. Run: Rscript lower_bounds.R > values.csv
library(survival)
options(digits = 15)
put <- function(key, value) cat(key, ",", format(value, digits = 12, scientific = TRUE), "\n", sep = "")
y <- scan("../r_practice_curves/made.csv", quiet = TRUE, sep = "\n")
d <- data.frame(n = 1:40, y = y, seen = !(1:40 %in% c(3, 8, 9, 15, 22, 27, 31, 38)))
d$y[!d$seen] <- 0.93 * d$y[!d$seen] # those were helped: at least so long

# -2 log likelihood on ln y, less N (ln 2 pi + 1), N the cycles that are values
cost <- function(loglik) -2 * (loglik + sum(log(d$y[d$seen]))) - sum(d$seen) * (log(2 * pi) + 1)
flat <- survreg(Surv(y, seen) ~ 1, d, dist = "lognormal", control = survreg.control(rel.tolerance = 1e-14))
put("constant.c", exp(coef(flat)[[1]]))
put("constant.sigma", flat$scale)
put("constant.cost", cost(flat$loglik[2]))
line <- survreg(Surv(y, seen) ~ log(n), d, dist = "lognormal", control = survreg.control(rel.tolerance = 1e-14))
put("power.a", exp(coef(line)[[1]]))
put("power.b", -coef(line)[[2]])
put("power.sigma", line$scale)
put("power.cost", cost(line$loglik[2]))
se <- sqrt(vcov(line)[2, 2])
# log likelihood with the slope held: offset
for (t in c(-2, -1, 1, 2)) {
  b <- coef(line)[[2]] + t * se
  held <- survreg(Surv(y, seen) ~ offset(b * log(n)), d, dist = "lognormal",
                  control = survreg.control(rel.tolerance = 1e-14))
  put(paste0("power.b_held_", t), -b)
  put(paste0("power.cost_held_", t), cost(held$loglik[2]))
}

minus_2_log_lik <- function(p, shape_of) {
  m <- p[1] + p[2] * shape_of(d$n, exp(p[3])); s <- exp(p[4])
  if (any(m <= 0) || p[1] < 0 || p[2] < 0) return(1e6)
  -2 * (sum(dnorm(log(d$y[d$seen]), log(m[d$seen]), s, log = TRUE)) +
        sum(pnorm(log(d$y[!d$seen]), log(m[!d$seen]), s, lower.tail = FALSE, log.p = TRUE)))
}
best_of <- function(shape_of, starts) {
  best <- NULL
  for (s in starts) {
    r <- optim(s, minus_2_log_lik, shape_of = shape_of, control = list(reltol = 1e-15, maxit = 50000))
    for (k in 1:4) r <- optim(r$par, minus_2_log_lik, shape_of = shape_of, control = list(reltol = 1e-15, maxit = 50000))
    if (is.null(best) || r$value < best$value) best <- r
  }
  best
}
exponential <- function(n, tau) exp(-n / tau)
r <- best_of(exponential, list(c(52, 45, log(5), log(0.05)), c(50, 40, log(10), log(0.08))))
put("exponential_plateau.c", r$par[1])
put("exponential_plateau.tau", exp(r$par[3]))
put("exponential_plateau.sigma", exp(r$par[4]))
put("exponential_plateau.cost", r$value - sum(d$seen) * (log(2 * pi) + 1))

# No lower bounds: the two curves that have no published numbers, by nls on ln y.
# Invented noise-free times with a small ripple, 400 cycles.
k <- 1:400
ripple <- 1 + 0.02 * ((k * 7) %% 5 - 2)
control <- nls.control(tol = 1e-8, maxiter = 1000, minFactor = 1e-10)
e <- data.frame(n = k, y = (50 + 40 / (1 + k / 25)) * ripple)
hyper <- nls(log(y) ~ log(c + a / (1 + n / h)), e, start = list(c = 50, a = 40, h = 25), control = control)
for (key in c("c", "a", "h")) put(paste0("hyperbolic_plateau.", key), coef(hyper)[[key]])
put("hyperbolic_plateau.rss", sum(resid(hyper)^2))
two <- data.frame(n = k, y = (50 + 30 * exp(-k / 12) + 20 * exp(-k / 150)) * ripple)
rss <- function(p) {
  m <- p[1] + p[2] * exp(-k / exp(p[3])) + p[4] * exp(-k / exp(p[5]))
  if (any(m <= 0)) return(1e6)
  sum((log(two$y) - log(m))^2)
}
r <- list(par = c(50, 30, log(12), 20, log(150)))
for (i in 1:20) r <- optim(r$par, rss, control = list(reltol = 1e-16, maxit = 50000))
fit <- list(c = r$par[1], a1 = r$par[2], t1 = exp(r$par[3]), a2 = r$par[4], t2 = exp(r$par[5]))
for (key in names(fit)) put(paste0("two_phase.", key), fit[[key]])
put("two_phase.rss", r$value)
# Level of two phases at 800 held: residual sum by optim
level <- function(m, starts) {
  f <- function(p) { # c, a1, ln t1, ln t2; a2 from the level
    t1 <- exp(p[3]); t2 <- exp(p[4])
    a2 <- (m - p[1] - p[2] * exp(-800 / t1)) / exp(-800 / t2)
    if (p[1] < 0 || p[2] < 0 || a2 < 0 || t2 < 5 * t1) return(1e6)
    sum((log(two$y) - log(p[1] + p[2] * exp(-k / t1) + a2 * exp(-k / t2)))^2)
  }
  best <- Inf
  for (s in starts) {
    r <- optim(s, f, control = list(reltol = 1e-15, maxit = 100000))
    for (j in 1:6) r <- optim(r$par, f, control = list(reltol = 1e-15, maxit = 100000))
    best <- min(best, r$value)
  }
  best
}
at800 <- fit$c + fit$a1 * exp(-800 / fit$t1) + fit$a2 * exp(-800 / fit$t2)
put("two_phase.m800", at800)
for (r in c(0.99, 0.995, 1.004, 1.008)) {
  m <- at800 * r
  put(paste0("two_phase.rss_held_", r), level(m, list(c(m - 0.1, 30, log(12), log(150)), c(m - 0.5, 30, log(12), log(220)),
                                                   c(m - 0.02, 30, log(11), log(120)), c(m - 2, 28, log(13), log(350)))))
}

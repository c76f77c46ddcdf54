# Practice curves on logarithms by R: lm, nls and optim. Run: Rscript practice_curves.R > values.csv
# The forty times are invented; Indometh (subject 1) is R's own data set, times in quarters of an hour.
options(digits = 15)
put <- function(key, value) cat(key, ",", format(value, digits = 12, scientific = TRUE), "\n", sep = "")

made <- data.frame(n = 1:40, y = scan("made.csv", quiet = TRUE, sep = "\n"))
indometh <- subset(Indometh, Subject == 1)
indometh <- data.frame(n = 4 * indometh$time, y = indometh$conc)

quality <- function(key, fit, k) {
  rss <- sum(resid(fit)^2)
  put(paste0(key, ".rss"), rss)
  put(paste0(key, ".log_likelihood"), as.numeric(logLik(fit)))
  put(paste0(key, ".aic"), AIC(fit))
  invisible(rss)
}

for (set in c("made", "indometh")) {
  d <- get(set); n <- nrow(d); ahead <- 2 * max(d$n)
  # constant
  flat <- lm(log(y) ~ 1, d)
  rss <- quality(paste0(set, ".constant"), flat)
  put(paste0(set, ".constant.c"), exp(coef(flat)[[1]]))
  put(paste0(set, ".constant.se"), summary(flat)$coefficients[1, 2])
  # power: the level ahead has a profile in closed form, from the standard error of the line there
  line <- lm(log(y) ~ log(n), d)
  rss <- quality(paste0(set, ".power"), line)
  put(paste0(set, ".power.a"), exp(coef(line)[[1]]))
  put(paste0(set, ".power.b"), -coef(line)[[2]])
  put(paste0(set, ".power.se_b"), summary(line)$coefficients[2, 2])
  there <- predict(line, data.frame(n = ahead), se.fit = TRUE)
  put(paste0(set, ".power.ln_m_ahead"), there$fit[[1]])
  put(paste0(set, ".power.se_ln_m_ahead"), there$se.fit)
}

# The two plateaus on logs by nls, start values from the eye.
starts <- list(made = list(power_plateau = list(c = 46, a = 50, s = 0.7), exponential_plateau = list(c = 52, a = 45, s = 5)),
               indometh = list(exponential_plateau = list(c = 0.1, a = 2, s = 5)))
shapes <- list(power_plateau = function(n, s) n^-s, exponential_plateau = function(n, s) exp(-n / s))
for (set in names(starts)) for (model in names(starts[[set]])) {
  d <- get(set); g <- shapes[[model]]
  fit <- nls(log(y) ~ log(c + a * g(n, s)), d, start = starts[[set]][[model]],
             control = nls.control(tol = 1e-7, maxiter = 200))
  key <- paste0(set, ".", model)
  rss <- quality(key, fit)
  est <- coef(fit)
  put(paste0(key, ".c"), est[["c"]])
  put(paste0(key, ".a"), est[["a"]])
  put(paste0(key, ".shape"), est[["s"]])
  put(paste0(key, ".se_c"), summary(fit)$coefficients["c", 2])
  put(paste0(key, ".se_shape"), summary(fit)$coefficients["s", 2])
}

# Profiles of the plateaus on the made times: the residual sum with m(80), or the improvement from 40 to 80, held.
least <- function(rss_at, starts) {
  best <- Inf
  for (c0 in starts$c) for (s0 in starts$s) {
    r <- optim(c(c0, s0), rss_at, control = list(reltol = 1e-14, maxit = 20000))
    r <- optim(r$par, rss_at, control = list(reltol = 1e-14, maxit = 20000))
    best <- min(best, r$value)
  }
  best
}
for (model in names(shapes)) {
  g <- shapes[[model]]; d <- made; big <- 1e6
  # shape between the ends the program searches: b 0.001 to 3; tau 1 to 30 x 40
  low <- log(if (model == "power_plateau") 1e-3 else 1)
  high <- log(if (model == "power_plateau") 3 else 1200)
  levels <- if (model == "power_plateau") c(46.5, 47.4, 48.4, 49) else c(50.1, 50.5, 51.2, 51.6)
  improvements <- if (model == "power_plateau") c(0.025, 0.03, 0.04, 0.045) else c(0.0005, 0.001, 0.002)
  for (m in levels) {
    rss <- least(function(p) {                       # p: logit of c / m, ln shape
      if (p[2] < low || p[2] > high) return(big)
      c <- m * plogis(p[1]); a <- (m - c) / g(80, exp(p[2]))
      if (c + a * g(1, exp(p[2])) > m / 0.02) return(big)
      sum((log(d$y) - log(c + a * g(d$n, exp(p[2]))))^2)
    }, list(c = c(-3, 0, 3, 6), s = low + (high - low) * c(0.2, 0.5, 0.7, 0.85, 0.97)))
    put(paste0("made.", model, ".rss_with_m80_", m), rss)
  }
  for (g_left in improvements) {
    # c and a from the shape alone, ln M solved exactly: one dimension
    rss_at <- function(ln_s) sapply(ln_s, function(l) {
      s <- exp(l); fall <- g(40, s) - g(80, s)
      k <- (1 / (1 - g_left) - 1) / fall                    # m(n) = M (1 + k (g(n) - g(80)))
      if (!is.finite(k) || k * g(80, s) > 1 || k * g(1, s) > 50) return(big)
      r <- log(d$y) - log(1 + k * (g(d$n, s) - g(80, s)))
      sum((r - mean(r))^2)
    })
    grid <- seq(low, high, length.out = 20001)
    at <- which.min(rss_at(grid))
    best <- optimize(rss_at, grid[pmax(1, pmin(20001, at + c(-1, 1)))], tol = 1e-12)$objective
    put(paste0("made.", model, ".rss_with_improvement_", g_left), min(best, rss_at(grid[at])))
  }
}

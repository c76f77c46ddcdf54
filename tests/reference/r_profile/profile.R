# Profile intervals of nonlinear fits by R: nls refitted with one quantity held, ends by uniroot; confint of MASS beside.
# Run: Rscript profile.R > values.csv
suppressMessages(library(MASS))
put <- function(key, value) cat(key, ",", format(value, digits = 12, scientific = TRUE), "\n", sep = "")
# Tighter than rounding lets it stop: the last digits come, and so does a warning that it went on to the end.
tight <- nls.control(maxiter = 500, tol = 1e-9, minFactor = 1e-12, warnOnly = TRUE)

# Roots of the profile: measure "t" is sqrt((S(v) - S) / s^2), measure "deviance" is sqrt(n log(S(v) / S)).
ends <- function(key, fit, held, fitted, low, high) {
  S <- deviance(fit); df <- df.residual(fit); n <- length(resid(fit))
  roots <- list(t = function(v) sqrt(max(0, held(v) - S) / (S / df)),
                deviance = function(v) sqrt(n * log(max(1, held(v) / S))))
  wanted <- list(t = qt(0.975, df), deviance = qnorm(0.975))
  for (m in names(roots)) {
    f <- function(v) roots[[m]](v) - wanted[[m]]
    put(paste(key, m, "low", sep = "."), uniroot(f, c(low, fitted), tol = 1e-13)$root)
    put(paste(key, m, "high", sep = "."), uniroot(f, c(fitted, high), tol = 1e-13)$root)
  }
}
rss <- function(...) deviance(nls(..., control = tight))

# Puromycin, treated cells (comes with R; Bates & Watts 1988): rate = Vm conc / (K + conc).
treated <- subset(Puromycin, state == "treated")
fit <- nls(rate ~ Vm * conc / (K + conc), treated, start = list(Vm = 200, K = 0.05), control = tight)
put("puromycin.Vm", coef(fit)[["Vm"]]); put("puromycin.K", coef(fit)[["K"]])
put("puromycin.Vm.se", sqrt(vcov(fit)[1, 1])); put("puromycin.K.se", sqrt(vcov(fit)[2, 2]))
put("puromycin.rss", deviance(fit))
# Without a loop: for a K the best Vm is linear; for a Vm, K by optimize.
with(treated, {
  ends("puromycin.K", fit, function(k) { z <- conc / (k + conc); sum(lm.fit(cbind(z), rate)$residuals^2) },
       coef(fit)[["K"]], 0.02, 0.15)
  ends("puromycin.Vm", fit, function(v) rss(rate ~ v * conc / (K + conc), treated, start = list(K = 0.06)),
       coef(fit)[["Vm"]], 180, 260)
  # The rate at conc 0.1: Vm = q (K + 0.1) / 0.1.
  q <- coef(fit)[["Vm"]] * 0.1 / (coef(fit)[["K"]] + 0.1)
  put("puromycin.rate", q)
  ends("puromycin.rate", fit,
       function(q) rss(rate ~ q * (K + 0.1) / 0.1 * conc / (K + conc), treated, start = list(K = 0.06)), q, 100, 150)
})
suppressMessages(ci <- confint(fit))
put("puromycin.Vm.mass.low", ci["Vm", 1]); put("puromycin.Vm.mass.high", ci["Vm", 2])
put("puromycin.K.mass.low", ci["K", 1]); put("puromycin.K.mass.high", ci["K", 2])

# NIST StRD BoxBOD: y = b1 (1 - exp(-b2 x)), six points. For a b2 the best b1 is linear.
box <- data.frame(y = c(109, 149, 149, 191, 213, 224), x = c(1, 2, 3, 5, 7, 10))
fit <- nls(y ~ b1 * (1 - exp(-b2 * x)), box, start = list(b1 = 210, b2 = 0.5), control = tight)
ends("boxbod.b2", fit, function(k) { z <- 1 - exp(-k * box$x); sum(lm.fit(cbind(z), box$y)$residuals^2) },
     coef(fit)[["b2"]], 0.05, 2.2)
ends("boxbod.b1", fit, function(v) optimize(function(k) sum((box$y - v * (1 - exp(-k * box$x)))^2), c(0.01, 3),
     tol = 1e-12)$objective, coef(fit)[["b1"]], 150, 300)

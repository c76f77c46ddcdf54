# Two shifts against one another by R: levels standardised by variant, Welch's t, two one-sided tests, and the share of
# people below a limit by non-central t. The cycles are simulated here; nobody worked them.
# Run: Rscript shift_comparison.R > values.csv   (writes cycles.csv too)
put <- function(key, value) cat(key, ",", format(value, digits = 15, scientific = TRUE), "\n", sep = "")

# Simulated: three people early, four late; 80 cycles a day on three days; S = 50, 58, 70 s; plan 60, 30, 10 %. The late
# shift hardly builds the third variant, so it is not common to both.
set.seed(20260301)
standard <- c(50, 58, 70)
plan <- c(0.6, 0.3, 0.1)
people <- data.frame(op = 1:7, shift = rep(c("early", "late"), c(3, 4)),
                     level = c(0.97, 1.00, 1.02, 0.98, 1.01, 1.03, 0.995))
cycles <- do.call(rbind, lapply(1:7, function(o) do.call(rbind, lapply(0:2, function(d) {
  mix <- if (people$shift[o] == "early") c(0.5, 0.3, 0.2) else c(0.695, 0.3, 0.005)
  variant <- sample(1:3, 80, replace = TRUE, prob = mix)
  day <- exp(rnorm(1, 0, 0.01))
  data.frame(op = o, day = d, variant = variant,
             time = round(standard[variant] * people$level[o] * day * exp(rnorm(80, 0, 0.05)), 1))
}))))
write.csv(cycles, "cycles.csv", row.names = FALSE, quote = FALSE)
cycles$shift <- people$shift[cycles$op]

counts <- table(cycles$shift, cycles$variant)
stopifnot(all(counts[, 1:2] >= 20), counts["late", 3] < 20)
common <- 1:2
weight <- plan[common] / sum(plan[common])
mix_s <- sum(weight * standard[common])
ratio <- sapply(1:7, function(o) {
  own <- cycles[cycles$op == o, ]
  sum(weight * sapply(common, function(v) mean(own$time[own$variant == v]))) / mix_s
})
early <- log(ratio[1:3])
late <- log(ratio[4:7])

# Levels with their intervals, for the common variants.
for (s in c("early", "late")) {
  answer <- t.test(get(s))
  put(paste0(s, ".level_s"), mix_s * exp(mean(get(s))))
  put(paste0(s, ".low_s"), mix_s * exp(answer$conf.int[1]))
  put(paste0(s, ".high_s"), mix_s * exp(answer$conf.int[2]))
}

# Welch: early less late, 95 % interval, and the two one-sided tests against 5 %.
margin <- log(1.05)
both <- t.test(early, late, conf.level = 0.95)
put("welch.difference", mean(early) - mean(late))
put("welch.u", both$stderr)
put("welch.df", both$parameter)
put("welch.low", both$conf.int[1])
put("welch.high", both$conf.int[2])
put("welch.p_lower", t.test(early, late, mu = -margin, alternative = "greater")$p.value)
put("welch.p_upper", t.test(early, late, mu = margin, alternative = "less")$p.value)

# One person early: spread from that person's days, 4 % between people on top as known; JCGM 100 G.4.1.
first <- cycles[cycles$op == 1 & cycles$variant %in% common, ]
days <- log(tapply(first$time / standard[first$variant], first$day, mean))
parts <- c(sd(days) / sqrt(3), 0.04, sd(late) / 2)
u <- sqrt(sum(parts^2))
df <- u^4 / sum(parts^4 / c(2, Inf, 3))
put("single.difference", early[1] - mean(late))
put("single.u", u)
put("single.df", df)
put("single.p_upper", pt((early[1] - mean(late) - margin) / u, df))

# Share of people below 55.5 s for the whole plan, by the non-central t: all seven, both ends at 97.5 %. A variant with
# fewer than 20 own cycles takes its standard time, times how it lies to the others for those who do it (lm, persons and
# variants, on the scale that keeps the standard's mean), times the own mean of time over both.
cells <- do.call(rbind, lapply(1:7, function(o) do.call(rbind, lapply(1:3, function(v) {
  mine <- cycles$time[cycles$op == o & cycles$variant == v]
  if (length(mine) >= 20) data.frame(op = o, variant = v, ln = log(mean(mine) / standard[v]))
}))))
table_fit <- lm(ln ~ 0 + factor(op) + factor(variant), cells)
f <- exp(c(0, coef(table_fit)[paste0("factor(variant)", 2:3)]))
f <- f * sum(plan * standard) / sum(plan * standard * f)
ln <- sapply(1:7, function(o) {
  own <- cycles[cycles$op == o, ]
  all <- mean(own$time / (standard * f)[own$variant])
  log(sum(plan * sapply(1:3, function(v) {
    mine <- own$time[own$variant == v]
    if (length(mine) >= 20) mean(mine) else standard[v] * f[v] * all
  })))
})
t <- sqrt(7) * (log(55.5) - mean(ln)) / sd(ln)
end <- function(p) uniroot(function(d) pt(t, 6, d) - p, c(-3, 8), tol = 1e-12)$root
put("share.estimate", pnorm((log(55.5) - mean(ln)) / sd(ln)))
put("share.low", pnorm(end(0.975) / sqrt(7)))
put("share.high", pnorm(end(0.025) / sqrt(7)))

# Clopper-Pearson by the beta distribution.
for (a in list(c(81, 263), c(15, 148), c(1, 29))) {
  put(sprintf("share.%g.%g.low", a[1], a[2]), binom.test(a[1], a[2])$conf.int[1])
  put(sprintf("share.%g.%g.high", a[1], a[2]), binom.test(a[1], a[2])$conf.int[2])
}
# The same where k and n are not whole: half of 81 of 263.
put("share.half.low", qbeta(0.025, 40.5, 131.5 - 40.5 + 1))
put("share.half.high", qbeta(0.975, 40.5 + 1, 131.5 - 40.5))

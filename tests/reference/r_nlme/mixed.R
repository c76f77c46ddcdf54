# Non-linear mixed effects by R nlme. Run: Rscript mixed.R > values.csv
# It writes data.csv (R's data sets) and learners.csv (invented) too, and reads them back: what the tests read.
suppressMessages(library(nlme))
options(digits = 15)
put <- function(key, value) cat(key, ",", format(value, digits = 12, scientific = TRUE), "\n", sep = "")
# Tighter than the defaults, so that where the two programs stop does not show.
tight <- nlmeControl(tolerance = 1e-8, pnlsTol = 1e-6, pnlsMaxIter = 60, maxIter = 500, msMaxIter = 200)

# Everything the tests compare. Standard errors are those of varFix; summary() adds the factor sqrt(N/(N - p)).
show <- function(key, fit, d, f, group, random, ln_roots = 0) {
  beta <- fixef(fit); s <- sigma(fit); p <- length(beta)
  put(paste0(key, ".log_likelihood"), as.numeric(logLik(fit)) + ln_roots)
  put(paste0(key, ".sigma"), s)
  for (k in seq_along(beta)) {
    put(paste(key, "fixed", k, sep = "."), beta[[k]])
    put(paste(key, "se", k, sep = "."), sqrt(fit$varFix[k, k]))
  }
  psi <- as.matrix(fit$modelStruct$reStruct[[1]]) * s^2
  for (k in seq_len(nrow(psi))) {
    put(paste(key, "sd", k, sep = "."), sqrt(psi[k, k]))
    for (j in seq_len(k - 1)) put(paste(key, "correlation", k, j, sep = "."), cov2cor(psi)[k, j])
  }
  # Groups in the order of their first row: estimate, and its error as a prediction by Henderson's equations,
  # written out and inverted whole (dense, apart from nlme).
  groups <- unique(as.character(d[[group]])); M <- length(groups); q <- nrow(psi)
  if (max(abs(diag(psi))) < 1e-8 * s^2) return(invisible())
  b <- as.matrix(ranef(fit))[groups, , drop = FALSE]
  phi <- matrix(beta, M, p, byrow = TRUE); phi[, random] <- phi[, random] + b
  X <- matrix(0, nrow(d), p); Z <- matrix(0, nrow(d), M * q)
  for (i in seq_len(M)) {
    rows <- which(as.character(d[[group]]) == groups[i])
    for (k in seq_len(p)) {
      h <- 1e-6 * max(1, abs(phi[i, k])); up <- phi[i, ]; down <- up; up[k] <- up[k] + h; down[k] <- down[k] - h
      X[rows, k] <- (f(up, d$x[rows]) - f(down, d$x[rows])) / (2 * h)
    }
    Z[rows, (i - 1) * q + seq_len(q)] <- X[rows, random]
  }
  A <- cbind(X, Z); W <- if (is.null(d$w)) rep(1, nrow(d)) else d$w
  mme <- crossprod(A * W, A) / s^2
  for (i in seq_len(M)) {
    at <- p + (i - 1) * q + seq_len(q)
    mme[at, at] <- mme[at, at] + solve(psi)
  }
  C <- solve(mme)
  for (i in seq_len(M)) {
    T <- matrix(0, p, ncol(C)); T[, seq_len(p)] <- diag(p)
    for (k in seq_len(q)) T[random[k], p + (i - 1) * q + k] <- 1
    V <- T %*% C %*% t(T)
    for (k in seq_len(p)) {
      put(paste(key, "group", i, k, sep = "."), phi[i, k])
      put(paste(key, "group_se", i, k, sep = "."), sqrt(V[k, k]))
    }
  }
}

# Restricted likelihood: nlme 3.1-162 looks for Psi by maximum likelihood whatever its method and only rescales the result,
# so here the alternation is written out, with lme (restricted) for the linear model. `d` has x, y, group.
alternate <- function(d, f, start, random, group = "group") {
  g <- factor(d[[group]], levels = unique(d[[group]])); p <- length(start)
  beta <- start; b <- matrix(0, nlevels(g), length(random))
  for (round in 1:200) {
    X <- matrix(0, nrow(d), p); phi <- matrix(beta, nrow(d), p, byrow = TRUE)
    phi[, random] <- phi[, random] + b[as.integer(g), ]
    value <- function(phi) sapply(seq_len(nrow(d)), function(i) f(phi[i, ], d$x[i]))
    for (k in seq_len(p)) {
      h <- 1e-6 * max(1, abs(beta[k])); up <- phi; down <- phi; up[, k] <- up[, k] + h; down[, k] <- down[, k] - h
      X[, k] <- (value(up) - value(down)) / (2 * h)
    }
    linear <- data.frame(w = d$y - value(phi) + rowSums(X * phi), g = g, X)
    columns <- paste0("X", seq_len(p))
    fit <- lme(as.formula(paste("w ~ 0 +", paste(columns, collapse = "+"))), linear,
               random = list(g = pdDiag(as.formula(paste("~ 0 +", paste(columns[random], collapse = "+"))))),
               method = "REML", control = lmeControl(msMaxIter = 500, niterEM = 60, opt = "nlminb"))
    moved <- max(abs(fixef(fit) - beta) / sqrt(diag(fit$varFix)))
    beta <- unname(fixef(fit)); b <- as.matrix(ranef(fit))[levels(g), , drop = FALSE]
    if (moved < 1e-8) return(fit)
  }
  stop("not at rest")
}

# 1 to 3: data sets of R, with the models of their help pages.
as_data <- function(set, d, x, y, g) data.frame(set = set, group = as.character(d[[g]]), x = d[[x]], y = d[[y]])
write.csv(rbind(as_data("orange", Orange, "age", "circumference", "Tree"),
                as_data("loblolly", Loblolly, "age", "height", "Seed"),
                as_data("indometh", Indometh, "time", "conc", "Subject")), "data.csv", row.names = FALSE, quote = FALSE)
data <- read.csv("data.csv")
of <- function(name) subset(data, set == name)
logistic <- function(p, x) p[1] / (1 + exp((p[2] - x) / p[3]))
asymptotic <- function(p, x) p[1] + (p[2] - p[1]) * exp(-exp(p[3]) * x)
biexponential <- function(p, x) p[1] * exp(-exp(p[2]) * x) + p[3] * exp(-exp(p[4]) * x)

d <- of("orange")
start <- c(Asym = 190, xmid = 720, scal = 350)
show("orange", nlme(y ~ SSlogis(x, Asym, xmid, scal), d, fixed = Asym + xmid + scal ~ 1, random = Asym ~ 1 | group,
                    start = start, control = tight), d, logistic, "group", 1)
show("orange_reml", alternate(d, logistic, start, 1), d, logistic, "group", 1)
d <- of("loblolly")
start <- c(Asym = 103, R0 = -8.5, lrc = -3.3)
show("loblolly", nlme(y ~ SSasymp(x, Asym, R0, lrc), d, fixed = Asym + R0 + lrc ~ 1, random = Asym ~ 1 | group,
                      start = start, control = tight), d, asymptotic, "group", 1)
show("loblolly_reml", alternate(d, asymptotic, start, 1), d, asymptotic, "group", 1)
d <- of("indometh")
start <- c(A1 = 2.8, lrc1 = 0.77, A2 = 0.46, lrc2 = -1.35)
fit <- nlme(y ~ SSbiexp(x, A1, lrc1, A2, lrc2), d, fixed = A1 + lrc1 + A2 + lrc2 ~ 1,
            random = list(group = pdDiag(A1 + lrc1 + A2 ~ 1)), start = start, control = tight)
show("indometh", fit, d, biexponential, "group", 1:3)
fit <- nlme(y ~ SSbiexp(x, A1, lrc1, A2, lrc2), d, fixed = A1 + lrc1 + A2 + lrc2 ~ 1,
            random = list(group = pdSymm(A1 + lrc1 ~ 1)), start = start, control = tight)
show("indometh_full", fit, d, biexponential, "group", 1:2)

# 4: practice, invented: eight learners, ln y = ln(c_i (1 + r_i exp(-n/tau_i))) + e, all three log-normal; learner 9 comes
# after them, with 40 cycles.
set.seed(20)
learners <- do.call(rbind, lapply(1:9, function(i) {
  c <- 50 * exp(rnorm(1, 0, 0.06)); tau <- 90 * exp(rnorm(1, 0, 0.30)); r <- 0.5 * exp(rnorm(1, 0, 0.25))
  n <- seq_len(if (i == 9) 40 else 140 + 25 * i)
  data.frame(learner = i, n = n, seconds = round(c * (1 + r * exp(-n / tau)) * exp(rnorm(length(n), 0, 0.08)), 3))
}))
write.csv(learners, "learners.csv", row.names = FALSE, quote = FALSE)
learners <- read.csv("learners.csv")
newcomer <- subset(learners, learner == 9)
learners <- subset(learners, learner < 9)
practice <- function(p, x) p[1] + log1p(exp(p[2] - x * exp(-p[3])))
d <- data.frame(group = learners$learner, x = learners$n, y = log(learners$seconds))
start <- c(s = log(50), r = log(0.5), t = log(90))
model <- y ~ s + log1p(exp(r - x * exp(-t)))
fit <- nlme(model, d, fixed = s + r + t ~ 1, random = list(group = pdDiag(s + t ~ 1)), start = start, control = tight)
show("practice", fit, d, practice, "group", c(1, 3))
show("practice_reml", alternate(d, practice, start, c(1, 3)), d, practice, "group", c(1, 3))
fit <- nlme(model, d, fixed = s + r + t ~ 1, random = list(group = pdSymm(s + t ~ 1)), start = start, control = tight)
show("practice_full", fit, d, practice, "group", c(1, 3))
# All three between learners, and what it says: the band at own cycles 25, 100 and 200 and settled, as ln level with its
# half width; the newcomer by nls with the fit as three more values (SD of ln r and ln tau at least 0.3).
fit <- alternate(d, practice, start, 1:3)
show("practice_three_reml", fit, d, practice, "group", 1:3)
s <- sigma(fit); beta <- unname(fixef(fit)); t <- qt(0.975, 7)
between <- unname(diag(as.matrix(fit$modelStruct$reStruct[[1]]))) * s^2
one_more <- unname(fit$varFix) + diag(between)
slope <- function(p, n) c(1, exp(p[2] - n / exp(p[3])) / (1 + exp(p[2] - n / exp(p[3]))) * c(1, n / exp(p[3])))
for (n in c(25, 100, 200)) {
  put(paste0("band.", n), practice(beta, n) + s^2 / 2)
  put(paste0("band_half.", n), t * sqrt(c(slope(beta, n) %*% one_more %*% slope(beta, n))))
}
put("band.settled", beta[1] + s^2 / 2); put("band_half.settled", t * sqrt(one_more[1, 1]))
prior <- unname(fit$varFix) + diag(pmax(between, c(0, 0.09, 0.09)))
R <- chol(solve(prior))
joint <- function(s_, r_, t_) c(practice(c(s_, r_, t_), newcomer$n) / s, R %*% c(s_, r_, t_))
wanted <- c(log(newcomer$seconds) / s, R %*% beta)
own <- nls(wanted ~ joint(s_, r_, t_), start = list(s_ = beta[1], r_ = beta[2], t_ = beta[3]),
           control = nls.control(tol = 1e-6))
V <- summary(own)$cov.unscaled; p <- coef(own)
for (k in 1:3) { put(paste0("newcomer.", k), p[[k]]); put(paste0("newcomer_se.", k), sqrt(V[k, k])) }
put("newcomer.today", practice(p, 40) + s^2 / 2)
put("newcomer_half.today", t * sqrt(c(slope(p, 40) %*% V %*% slope(p, 40))))
# The first four learners, settled level alone between them.
few <- subset(d, group <= 4)
show("practice_few_reml", alternate(few, practice, start, 1), few, practice, "group", 1)
# Means of five cycles, with their weight.
d$block <- (d$x - 1) %/% 5
m <- aggregate(cbind(x, y, w = 1) ~ block + group, transform(d, w = 1), mean)
m$w <- aggregate(y ~ block + group, d, length)$y
# The same as values and curve times the root of the weight, but for the likelihood, which loses the ln of the root.
m$root <- sqrt(m$w); m$scaled <- m$y * m$root
fit <- nlme(scaled ~ root * (s + log1p(exp(r - x * exp(-t)))), m, fixed = s + r + t ~ 1,
            random = list(group = pdDiag(s + t ~ 1)), start = start, control = tight)
show("practice_weighted", fit, m, practice, "group", c(1, 3), sum(log(m$root)))

# Additive two-way table with empty cells: blends (persons) by treatments (variants).
y <- matrix(c(89, 88, 97, 94, 84, 77, 92, 79, 81, 87, 87, 85, 87, 92, 89, 84, 79, 81, 80, 88), 5, byrow = TRUE) / 100
d <- data.frame(y = as.vector(y), person = factor(row(y)), variant = factor(col(y)))
d <- d[!(d$person == 1 & d$variant == 3) & !(d$person == 2 & d$variant == 3) & !(d$person == 4 & d$variant == 1) &
       !(d$person == 5 & d$variant == 4), ]
fit <- lm(y ~ 0 + person + variant, d)
c <- c(0, coef(fit)[paste0("variant", 2:4)])
cov <- matrix(0, 4, 4)
cov[2:4, 2:4] <- vcov(fit)[paste0("variant", 2:4), paste0("variant", 2:4)]
content <- c(0.5, 0.3, 0.15, 0.05) * c(50, 58, 66, 70) # share times standard time
f <- exp(c); f <- f * sum(content) / sum(content * f)
h <- content * f / sum(content)
g <- diag(4) - rep(1, 4) %*% t(h)
cat("df,", fit$df.residual, "\n", sep = "")
for (v in 1:4) cat("factor", v, ",", formatC(f[v], digits = 12, format = "g"), "\n", sep = "")
k <- g %*% cov %*% t(g)
for (a in 1:4) for (b in a:4) cat("cov", a, b, ",", formatC(k[a, b], digits = 12, format = "g"), "\n", sep = "")
# weights: persons 1 and 2 twice
fitw <- lm(y ~ 0 + person + variant, d, weights = ifelse(person %in% c(1, 2), 2, 1))
c <- c(0, coef(fitw)[paste0("variant", 2:4)]); f <- exp(c); f <- f * sum(content) / sum(content * f)
for (v in 1:4) cat("weighted", v, ",", formatC(f[v], digits = 12, format = "g"), "\n", sep = "")

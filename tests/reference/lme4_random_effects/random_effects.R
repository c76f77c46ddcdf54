# One-way random effects by REML with lme4, on balanced sets and on what is left of them when rows are dropped.
# Run: Rscript random_effects.R > values.csv      It also writes groups.csv: set, group, value.
suppressMessages({library(lme4); data(Rail, Machines, package = "nlme")})
put <- function(key, value) cat(key, ",", format(value, digits = 12, scientific = TRUE), "\n", sep = "")

sets <- list(
  rail = data.frame(group = as.character(Rail$Rail), value = Rail$travel),
  dyestuff = data.frame(group = as.character(Dyestuff$Batch), value = Dyestuff$Yield),
  dyestuff2 = data.frame(group = as.character(Dyestuff2$Batch), value = Dyestuff2$Yield),
  sleepstudy = data.frame(group = as.character(sleepstudy$Subject), value = sleepstudy$Reaction),
  machine_b = with(subset(Machines, Machine == "B"), data.frame(group = as.character(Worker), value = score)))
# The rows dropped leave groups of unequal size, some of one value.
sets$rail_unbalanced <- sets$rail[-c(2, 3, 5, 10, 16), ]
sets$dyestuff_unbalanced <- sets$dyestuff[-c(1, 7, 8, 11:14, 22, 29, 30), ]
sets$dyestuff2_unbalanced <- sets$dyestuff2[-c(3, 8:10, 16, 17, 26:28), ]
sets$sleepstudy_unbalanced <- sets$sleepstudy[-c(1:9, 15:17, 40, 61:67, 100, 120, 150:160, 171, 180), ]
sets$machine_b_unbalanced <- sets$machine_b[-c(1, 2, 6, 12, 13), ]

control <- lmerControl(optimizer = "bobyqa", optCtrl = list(rhoend = 1e-12, rhobeg = 1e-3), calc.derivs = FALSE,
                       check.conv.singular = "ignore")
for (set in names(sets)) {
  fit <- lmer(value ~ 1 + (1 | group), sets[[set]], REML = TRUE, control = control)
  put(paste0(set, ".mean"), fixef(fit)[[1]])
  put(paste0(set, ".mean_se"), sqrt(as.matrix(vcov(fit))[1, 1]))
  put(paste0(set, ".variance_between"), as.data.frame(VarCorr(fit))$vcov[1])
  put(paste0(set, ".variance_within"), sigma(fit)^2)
}
rows <- do.call(rbind, lapply(names(sets), function(set) data.frame(set = set, sets[[set]])))
write.table(rows, "groups.csv", sep = ",", row.names = FALSE, quote = FALSE)

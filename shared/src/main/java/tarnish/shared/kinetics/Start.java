package tarnish.shared.kinetics;

/** Where a soak begins, as a fit sees it. */
public enum Start {
  /** At conversion 0, with bare solid: only k is fitted. */
  BARE,
  /** At a conversion of its own, which is fitted with k: the solid carries a crust already. */
  FITTED
}

package tallyback.app;

/** How far what is heard in the shop can be trusted just now. */
public enum Noisiness {
  /** Quiet enough. */
  QUIET,
  /** More is asked than in the quiet. */
  NOISY,
  /** Nothing is noted or asked about; what is called out is kept as sound. */
  TOO_NOISY
}

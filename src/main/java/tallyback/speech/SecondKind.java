package tallyback.speech;

/** What the model of a second recogniser has in common with that of the first. */
public enum SecondKind {
  /**
   * It may be of the same family, or nobody knows: it makes some of the same mistakes, so that its
   * agreement is worth little where the sound leaves a choice.
   */
  ALIKE,
  /** It is of another family, such as a neural one: its mistakes are its own. */
  OTHER
}

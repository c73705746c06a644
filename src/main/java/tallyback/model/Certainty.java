package tallyback.model;

/** How sure an entry is. An unconfirmed entry may open a finding and never closes one. */
public enum Certainty {
  /** Typed, clearly heard, or answered when asked. */
  CONFIRMED,
  /** Asked about and not answered. */
  UNCONFIRMED
}

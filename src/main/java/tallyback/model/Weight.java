package tallyback.model;

/** How much a finding matters. */
public enum Weight {
  /** Don't start, work or hand over. */
  STOP,
  /** Look at it before going on. */
  CHECK,
  /** Worth knowing. */
  NOTE
}

package tallyback.model;

/** How an entry came in. */
public enum Source {
  /** Spoken. */
  SPOKEN,
  /** Typed. */
  TYPED,
  /** Made by the tool itself, such as the opening of a job. */
  TOOL
}

package tallyback.speech;

/** What the recogniser is listening for. */
public enum ListeningMode {
  /** Entries, questions and repairs: everything the plan's grammar allows. */
  ENTRIES,
  /** The answer to something that was asked. */
  ANSWERS
}

package tallyback.speech;

/** What the recogniser is listening for. */
public enum ListeningMode {
  /** Entries, questions and repairs: everything the plan's grammar allows. */
  ENTRIES,
  /** The answer to something that was asked; other words are turned down. */
  ANSWERS,
  /**
   * Whether the clip begins with the attention word, whatever follows it. The grammar is that word
   * alone; the reading says where it stands, and its fit how sure it is.
   */
  ATTENTION,
  /** Whether the clip begins with the word for a memo, likewise. */
  MEMO;

  /** Whether the grammar is one word, which is looked for near the beginning. */
  public boolean isOneWord() {
    return this == ATTENTION || this == MEMO;
  }
}

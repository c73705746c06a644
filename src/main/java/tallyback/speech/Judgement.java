package tallyback.speech;

/** What a hearing is worth. */
public enum Judgement {
  /** Clear enough to be noted and read back. */
  NOTE,
  /** Something was said, but a word may be another: ask before noting. */
  ASK,
  /** No entry, or nothing that can be made out. */
  REJECT
}

package tallyback.review;

import tallyback.model.Entry;

/**
 * An entry that somebody should look at.
 *
 * @param entry the entry as it was noted
 * @param why why it is doubtful
 */
public record Doubt(Entry entry, Why why) {

  /** Reasons, the gravest first. */
  public enum Why {
    /** Something was said and not understood. */
    NOT_UNDERSTOOD,
    /** It was asked about, and never answered. */
    UNCONFIRMED,
    /** An unconfirmed entry speaks against it. */
    PUT_IN_DOUBT,
    /** It was to change another, and changed nothing. */
    CHANGES_NOTHING,
    /** Its amount has no unit, or one that can't be. */
    UNUSABLE
  }
}

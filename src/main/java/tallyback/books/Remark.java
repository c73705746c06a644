package tallyback.books;

import tallyback.model.Entry;

/**
 * Something said that the books could not use, with the reason. Never an exception: the entry stays
 * in the log and the finding made from this says what to do.
 *
 * @param entry the entry
 * @param why the reason
 */
public record Remark(Entry entry, Why why) {

  /** Why an entry moved nothing. */
  public enum Why {
    /** "Undo" when nothing was left to undo. */
    NOTHING_TO_UNDO("nothing was left to withdraw"),
    /** The entry named does not exist in this job or was noted later. */
    UNKNOWN_TARGET("the entry it names is not in this job or came later"),
    /** Withdrawn once more. */
    ALREADY_WITHDRAWN("that entry had been withdrawn already"),
    /** Correction of a withdrawn entry. */
    CORRECTS_WITHDRAWN("the entry it corrects had been withdrawn, so the new value does not count"),
    /** Retiming of a withdrawn entry. */
    RETIMES_WITHDRAWN("the entry it retimes had been withdrawn"),
    /** The opening of a job can't be withdrawn or corrected. */
    OPENING_STAYS("the opening of a job stays as it is"),
    /** A correction into something that can't stand in the log. */
    NOT_A_CORRECTION(
        "an entry can be corrected only into something that was done, seen or measured"),
    /** A count of nought or less. */
    IMPOSSIBLE_COUNT("a count must be 1 or more"),
    /** An amount of fluid of nought or less. */
    IMPOSSIBLE_AMOUNT("an amount of fluid must be more than 0"),
    /** A weight of something of which a litre's weight is not known. */
    WEIGHT_WITHOUT_DENSITY(
        "it was weighed, and nobody knows what a litre of it weighs: measure it in a jug, or give"
            + " the fluid its litre-weighs in the plan of the next job"),
    /** An amount that is neither a volume nor a weight, such as a length. */
    NOT_A_VOLUME("it is no volume, so the books can't count it"),
    /** An id that was noted before: a retry. */
    NOTED_TWICE("an entry with this id was noted before");

    private final String text;

    Why(String text) {
      this.text = text;
    }

    /** The reason in words. */
    public String text() {
      return text;
    }

    /** True when withdrawing, correcting or retiming came to nothing. */
    public boolean aboutAnEdit() {
      return compareTo(NOT_A_CORRECTION) <= 0;
    }

    /** True when a number could not be used. */
    public boolean aboutAnAmount() {
      return switch (this) {
        case IMPOSSIBLE_COUNT, IMPOSSIBLE_AMOUNT, NOT_A_VOLUME, WEIGHT_WITHOUT_DENSITY -> true;
        default -> false;
      };
    }
  }
}

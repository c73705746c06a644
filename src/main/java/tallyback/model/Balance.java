package tallyback.model;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Where the amount of one subject is now, account by account.
 *
 * @param subject plan id of the item group or system
 * @param label how people call it
 * @param lines one per account with something in it, in a fixed order
 */
public record Balance(String subject, String label, List<Line> lines) {

  /** Copies its lists. */
  public Balance {
    lines = List.copyOf(lines);
  }

  /**
   * What is in one account.
   *
   * @param account which
   * @param count how many, for items; else null
   * @param amount how much, for fluids; else null
   * @param opening true when the opening amount is unknown, so that the line is only a change
   */
  public record Line(
      Account account, @Nullable Integer count, @Nullable Amount amount, boolean opening) {}
}

package tallyback.phrase;

import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Statement;
import tallyback.model.Unit;

/**
 * What a phrase means.
 *
 * @param words the phrase in full, lower case, numbers as words
 * @param statement the statement; may be one that is only spoken (see {@link Statement#notable()})
 * @param ago how long ago it happened, when that was said with it ("twenty minutes ago"), or null
 * @param unitChoices when an amount of the statement has no unit, or a bare answer leaves it open:
 *     the units that may be meant, the usual ones first; else empty
 * @param further what else was said in the same breath ("running at eighty six degrees, heater on
 *     full"); mostly empty
 */
public record Meaning(
    String words,
    Statement statement,
    @Nullable Amount ago,
    List<Unit> unitChoices,
    List<Statement> further) {

  /** Copies its lists. */
  public Meaning {
    unitChoices = List.copyOf(unitChoices);
    further = List.copyOf(further);
  }

  /** A meaning with nothing left open and nothing further. */
  public Meaning(String words, Statement statement, @Nullable Amount ago) {
    this(words, statement, ago, List.of(), List.of());
  }

  /**
   * What would be noted, whatever words it was said with: equal for two phrases that come to the
   * same entry.
   *
   * @return an object to compare
   */
  public Object sense() {
    return List.of(statement, Optional.ofNullable(ago), unitChoices, further);
  }
}

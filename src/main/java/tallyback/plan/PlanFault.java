package tallyback.plan;

import java.util.Locale;
import tallyback.model.Weight;

/**
 * One thing wrong, or worth a second look, in a plan file.
 *
 * @param weight stop: the plan can't be used, or would hurt somebody or something; check: most
 *     likely a slip; note: unusual, and yet often right
 * @param file the file as the user named it
 * @param line line from 1; 0 when the file as a whole is meant
 * @param column column from 1; 0 when the file as a whole is meant
 * @param field where in the plan, such as {@code items.pump-bolts.torque}; empty for the file as a
 *     whole
 * @param expected what was expected, in words
 * @param found what stands there, in words
 * @param remedy what to do
 */
public record PlanFault(
    Weight weight,
    String file,
    int line,
    int column,
    String field,
    String expected,
    String found,
    String remedy) {

  /** The whole fault on one line, ready to be shown. */
  public String text() {
    return place() + said();
  }

  /** Likewise, with its weight behind the place: {@code plan.yaml:12:5: check: ...}. */
  public String weighedText() {
    return place() + weight.name().toLowerCase(Locale.ROOT) + ": " + said();
  }

  private String place() {
    return file + (line > 0 ? ":" + line + ":" + column : "") + ": ";
  }

  private String said() {
    StringBuilder text = new StringBuilder();
    if (!field.isEmpty()) {
      text.append(field).append(": ");
    }
    return text.append("expected ")
        .append(expected)
        .append(", found ")
        .append(found)
        .append("; ")
        .append(remedy)
        .toString();
  }
}

package tallyback.plan;

/**
 * One thing wrong, or worth a second look, in a plan file.
 *
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
    String file, int line, int column, String field, String expected, String found, String remedy) {

  /** The whole fault on one line, ready to be shown. */
  public String text() {
    StringBuilder text = new StringBuilder(file);
    if (line > 0) {
      text.append(':').append(line).append(':').append(column);
    }
    text.append(": ");
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

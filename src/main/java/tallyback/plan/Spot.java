package tallyback.plan;

import java.util.Optional;
import org.snakeyaml.engine.v2.exceptions.Mark;
import org.snakeyaml.engine.v2.nodes.Node;

/**
 * A spot in a plan file, as {@link Places} hands it out.
 *
 * @param line line from 1, or 0 for the file as a whole
 * @param column column from 1, or 0 for the file as a whole
 * @param field the field's path, or empty
 */
public record Spot(int line, int column, String field) {

  static final Spot WHOLE_FILE = new Spot(0, 0, "");

  /** Another field at the same spot. */
  static Spot of(Spot at, String field) {
    return new Spot(at.line(), at.column(), field);
  }

  static Spot of(Node node, String field) {
    return of(node.getStartMark(), field);
  }

  static Spot of(Optional<Mark> mark, String field) {
    return mark.map(at -> new Spot(at.getLine() + 1, at.getColumn() + 1, field))
        .orElse(new Spot(0, 0, field));
  }
}

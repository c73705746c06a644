package tallyback.trade;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;

/** A published table beside the tests; what each is and where it comes from is in its README. */
final class ReferenceTable {

  private final List<String> columns;
  private final List<List<String>> rows;

  private ReferenceTable(List<String> columns, List<List<String>> rows) {
    this.columns = columns;
    this.rows = rows;
  }

  /** One row. */
  record Row(List<String> columns, List<String> cells) {

    String text(String column) {
      int index = columns.indexOf(column);
      if (index < 0) {
        throw new IllegalArgumentException("no column " + column + " in " + columns);
      }
      return index < cells.size() ? cells.get(index).strip() : "";
    }

    boolean has(String column) {
      return !text(column).isEmpty();
    }

    double number(String column) {
      return Double.parseDouble(text(column));
    }
  }

  static ReferenceTable read(String name) {
    List<List<String>> lines = new ArrayList<>();
    try (InputStream file =
            Objects.requireNonNull(
                ReferenceTable.class.getResourceAsStream("/reference/" + name), name);
        BufferedReader reader =
            new BufferedReader(new InputStreamReader(file, StandardCharsets.UTF_8))) {
      for (String line = reader.readLine(); line != null; line = reader.readLine()) {
        lines.add(List.of(line.split(",", -1)));
      }
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
    return new ReferenceTable(lines.get(0), lines.subList(1, lines.size()));
  }

  List<String> columns() {
    return columns;
  }

  List<Row> rows() {
    return rows.stream().map(cells -> new Row(columns, cells)).toList();
  }
}

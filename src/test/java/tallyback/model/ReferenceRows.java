package tallyback.model;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;

/**
 * Rows of the published values under {@code reference/}; their sources stand at the head of each
 * file.
 */
final class ReferenceRows {

  private ReferenceRows() {}

  static Stream<List<String>> of(String file) {
    try (InputStream in =
        Objects.requireNonNull(ReferenceRows.class.getResourceAsStream("/reference/" + file))) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8)
          .lines()
          .filter(line -> !line.startsWith("#"))
          .map(line -> List.of(line.split(",", -1)));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}

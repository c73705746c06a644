package tallyback.report;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * Golden files of the reports. After a change that was meant, {@code mvn test
 * -Dtest='tallyback.report.*Test' -Dgolden=write} writes them anew; what changed is then read in
 * the diff.
 */
final class Golden {

  private static final Path FOLDER = Path.of("src", "test", "resources", "tallyback", "report");

  private Golden() {}

  static void assertSame(String name, String text) {
    Path file = FOLDER.resolve(name);
    try {
      if ("write".equals(System.getProperty("golden"))) {
        Files.createDirectories(FOLDER);
        Files.writeString(file, text);
      }
      assertEquals(
          Files.readString(file),
          text,
          () -> name + " differs; if that was meant, run with -Dgolden=write");
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }
}

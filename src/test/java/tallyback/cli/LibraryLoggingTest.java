package tallyback.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class LibraryLoggingTest {

  private static final Logger RECOGNISER = Logger.getLogger("edu.cmu.sphinx");
  private static final Logger DATABASE = Logger.getLogger("org.sqlite.core");

  @TempDir private Path folder;

  @AfterEach
  void stop() {
    LibraryLogging.stop();
  }

  private List<String> names() throws IOException {
    try (var files = Files.list(folder)) {
      return List.copyOf(new TreeSet<>(files.map(file -> file.getFileName().toString()).toList()));
    }
  }

  private String written() throws IOException {
    return Files.readString(folder.resolve("libraries.0.log"));
  }

  @Test
  void warningsOfLibrariesStandInTheFileALineEach() throws IOException {
    LibraryLogging.quieten();
    LibraryLogging.into(folder);
    RECOGNISER.warning("first\nsecond");
    DATABASE.log(Level.WARNING, "lost {0} pages", 3);
    DATABASE.info("a table");
    LibraryLogging.stop();
    assertEquals(List.of("libraries.0.log"), names());
    List<String> lines = written().lines().toList();
    assertEquals(2, lines.size(), lines::toString);
    assertTrue(lines.get(0).endsWith("Z WARNING edu.cmu.sphinx: first second"), lines.get(0));
    assertTrue(lines.get(1).endsWith("Z WARNING org.sqlite.core: lost 3 pages"), lines.get(1));
  }

  @Test
  void withoutAWarningThereIsNoFile() throws IOException {
    LibraryLogging.quieten();
    LibraryLogging.into(folder);
    DATABASE.info("a table");
    LibraryLogging.stop();
    assertEquals(List.of(), names());
  }

  @Test
  void theNextCommandGoesOnInTheSameFile() throws IOException {
    for (String command : List.of("one", "two")) {
      LibraryLogging.into(folder);
      DATABASE.warning(command);
      LibraryLogging.stop();
    }
    assertEquals(2, written().lines().count());
  }

  @Test
  void twoGenerationsAreKeptAndNoMore() throws IOException {
    LibraryLogging.into(folder);
    String line = "x".repeat(1000);
    for (int i = 0; i < 4 * LibraryLogging.LIMIT_BYTES / 1000; i++) {
      DATABASE.warning(line);
    }
    LibraryLogging.stop();
    assertEquals(List.of("libraries.0.log", "libraries.1.log"), names());
    for (String name : names()) {
      long size = Files.size(folder.resolve(name));
      assertTrue(size < LibraryLogging.LIMIT_BYTES + 2000, name + ": " + size);
    }
  }

  @Test
  void aFolderThatCannotBeMadeCostsTheWarningsAndNothingElse() throws IOException {
    Path file = Files.writeString(folder.resolve("in-the-way"), "a file");
    LibraryLogging.into(file.resolve("inner"));
    DATABASE.warning("lost");
    Ran ran = Ran.command("findings", "left-in-tray");
    assertEquals(0, ran.code());
    assertEquals("", ran.err());
    assertEquals(List.of("in-the-way"), names());
  }

  @Test
  void aCommandLogsIntoTheHomeItIsGiven() {
    Map<String, String> environment =
        Map.of("TALLYBACK_HOME", "/srv/own", "XDG_STATE_HOME", "/srv/state");
    assertEquals(folder, new HomeFolder(folder, environment).state());
    assertEquals(Path.of("/srv/own"), new HomeFolder(null, environment).state());
    assertEquals(
        Path.of("/srv/state/tallyback"),
        new HomeFolder(null, Map.of("XDG_STATE_HOME", "/srv/state")).state());
    assertEquals(
        Path.of(System.getProperty("user.home"), ".local", "state", "tallyback"),
        new HomeFolder(null, Map.of()).state());
    assertFalse(new HomeFolder(null, Map.of("XDG_DATA_HOME", "near")).data().startsWith("near"));
  }

  @Test
  void theFileOfACommandIsClosedWithIt() throws IOException {
    Ran.command("jobs", "--home", folder);
    DATABASE.warning("after the command");
    assertEquals(List.of(), names());
  }
}

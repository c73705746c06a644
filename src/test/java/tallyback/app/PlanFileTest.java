package tallyback.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class PlanFileTest {

  @TempDir private Path folder;

  private List<String> names() throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files.map(file -> String.valueOf(file.getFileName())).sorted().toList();
    }
  }

  @Test
  void aHandMadeFileIsKeptBesideTheNewOne() throws IOException {
    Path file = folder.resolve("plan.yaml");
    Files.writeString(file, "# by hand\n");
    Optional<Path> first = PlanFile.write(file, "one\n");
    Optional<Path> second = PlanFile.write(file, "two\n");
    assertEquals(Optional.of(folder.resolve("plan.before-1.yaml")), first);
    assertEquals(Optional.of(folder.resolve("plan.before-2.yaml")), second);
    assertEquals("# by hand\n", Files.readString(first.orElseThrow()));
    assertEquals("one\n", Files.readString(second.orElseThrow()));
    assertEquals("two\n", Files.readString(file));
    assertEquals(List.of("plan.before-1.yaml", "plan.before-2.yaml", "plan.yaml"), names());
  }

  @Test
  void theSameWordsAreWrittenOnce() throws IOException {
    Path file = folder.resolve("plan.yaml");
    assertEquals(Optional.empty(), PlanFile.write(file, "one\n"));
    assertEquals(Optional.empty(), PlanFile.write(file, "one\n"));
    assertEquals(List.of("plan.yaml"), names());
  }

  @Test
  void whereItCannotBeWrittenNothingIsLeftBehind() throws IOException {
    Files.createDirectory(folder.resolve("taken.yaml"));
    assertThrows(WrongUse.class, () -> PlanFile.write(folder.resolve("taken.yaml"), "one\n"));
    assertThrows(WrongUse.class, () -> PlanFile.write(folder.resolve("plan.txt"), "one\n"));
    assertThrows(
        WrongUse.class, () -> PlanFile.write(folder.resolve("no/such/plan.yaml"), "one\n"));
    assertEquals(List.of("taken.yaml"), names());
  }
}

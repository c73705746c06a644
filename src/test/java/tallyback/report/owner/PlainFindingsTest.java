package tallyback.report.owner;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import tallyback.model.Finding;
import tallyback.model.Weight;

class PlainFindingsTest {

  private static final Path GALLERY = Path.of("src/test/resources/gallery");

  private static Finding finding(String kind, String found, String expected) {
    return new Finding(
        kind,
        Weight.STOP,
        List.of(),
        "pump bolts",
        expected,
        found,
        null,
        null,
        List.of(),
        "Machine stopped: do something.",
        List.of());
  }

  /** The gallery has an example of every kind, so it tells which there are. */
  @Test
  void everyKindHasASentenceOfItsOwn() throws IOException {
    try (Stream<Path> examples = Files.list(GALLERY)) {
      Set<String> kinds =
          examples
              .map(folder -> String.valueOf(folder.getFileName()).replaceFirst("~.*", ""))
              .collect(Collectors.toCollection(TreeSet::new));
      assertTrue(kinds.size() > 60, kinds.toString());
      assertEquals(kinds, new TreeSet<>(PlainFindings.kinds()));
    }
  }

  @Test
  void aKindThatIsNewIsStillTold() {
    assertEquals(
        "Three; it should be: two.", PlainFindings.of(finding("brand-new", "three", "two")));
  }

  @Test
  void theWordsOfTheShopAreReplacedButNotWhatSomebodySaid() {
    assertEquals(
        "Some were left over and are not back on: 4 on the machine, 2 left over.",
        PlainFindings.of(finding("left-in-tray", "4 on the machine, 2 in the tray", "all")));
    assertEquals(
        "Not understood for certain: \"torqued two in the tray\".",
        PlainFindings.of(
            finding("entry-unconfirmed", "\"torqued two in the tray\": not confirmed", "x")));
  }

  @Test
  void bracesInNamesStayAsTheyAre() {
    assertEquals(
        "Measured {expected}; it should be {found}.",
        PlainFindings.of(finding("reading-outside", "{expected}", "{found}")));
  }
}

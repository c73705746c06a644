package tallyback.reconcile;

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
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import tallyback.model.Finding;

/**
 * One tiny plan and job per kind of finding, with the exact text expected. Run with {@code
 * -Dgallery.write=true} to write the expected texts anew; read them before committing.
 */
class GalleryTest {

  private static final List<String> SAFE_STATES =
      List.of(
          "Machine stopped",
          "Stopped and cold",
          "Don't start it",
          "Stop the ",
          "Stop, make the machine safe",
          "Keep away",
          "Take the battery's earth lead off",
          "Hang a do-not-start tag on it");

  @TestFactory
  Stream<DynamicTest> everyExampleSaysExactlyThis() throws IOException {
    return Example.folders().stream()
        .map(folder -> DynamicTest.dynamicTest(nameOf(folder), () -> compare(folder)));
  }

  private static void compare(Path folder) throws IOException {
    String actual = FindingLines.of(Example.read(folder).outcome());
    Path expected = folder.resolve("expected.txt");
    if (Boolean.getBoolean("gallery.write")) {
      Files.writeString(expected, actual);
    }
    assertEquals(Files.readString(expected), actual, () -> "stale: " + expected);
  }

  @Test
  void everyKindHasAnExampleOfItsNameThatShowsIt() throws IOException {
    Set<String> withExample = new TreeSet<>();
    for (Path folder : Example.folders()) {
      List<Finding> findings = Example.read(folder).findings();
      if (findings.stream().anyMatch(finding -> finding.kind().equals(nameOf(folder)))) {
        withExample.add(nameOf(folder));
      }
    }
    Set<String> kinds =
        Reconciler.kinds().stream().map(Kind::id).collect(Collectors.toCollection(TreeSet::new));
    kinds.removeAll(withExample);
    assertTrue(kinds.isEmpty(), () -> "kinds without an example that shows them: " + kinds);
  }

  @Test
  void everyKindHasATextAndEveryTextAKind() {
    List<String> kinds = Reconciler.kinds().stream().map(Kind::id).sorted().toList();
    assertEquals(kinds, FindingText.kinds().stream().sorted().toList());
  }

  @Test
  void whatAKindFollowsIsAKind() {
    List<String> kinds = Reconciler.kinds().stream().map(Kind::id).toList();
    for (Kind kind : Reconciler.kinds()) {
      assertTrue(kinds.containsAll(kind.follows()), () -> kind.id() + " " + kind.follows());
    }
  }

  /**
   * The safe state comes first, and it is one sentence. A remedy whose words the rule fills in is
   * held to it by the examples.
   */
  @Test
  void everyRemedyBeginsWithTheSafeStateAndIsOneSentence() throws IOException {
    for (Path folder : Example.folders()) {
      Example.read(folder).findings().forEach(GalleryTest::oneSafeSentence);
    }
  }

  private static void oneSafeSentence(Finding finding) {
    String remedy = finding.remedy();
    assertTrue(
        SAFE_STATES.stream().anyMatch(remedy::startsWith), () -> "no safe state: " + finding);
    assertEquals(remedy.length() - 1, remedy.indexOf('.'), () -> "more than a sentence: " + remedy);
    finding.followers().forEach(GalleryTest::oneSafeSentence);
  }

  private static String nameOf(Path folder) {
    return String.valueOf(folder.getFileName());
  }
}

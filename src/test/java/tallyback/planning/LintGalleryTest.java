package tallyback.planning;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import java.io.IOException;
import java.lang.reflect.Method;
import java.lang.reflect.Modifier;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import tallyback.model.Weight;
import tallyback.plan.PlanFault;
import tallyback.plan.PlanReader;
import tallyback.speech.CmuLexicon;
import tallyback.voice.freetts.FreeTtsVoice;

/**
 * One small plan for everything the lint says, {@code NAME.yaml} with the exact text in {@code
 * NAME.txt}; what stands behind {@code ~} tells examples of one sentence apart. Run with {@code
 * -Dgallery.write=true} to write the texts anew; read them before committing.
 */
class LintGalleryTest {

  private static final Path FOLDER = Path.of("src/test/resources/lint");
  private static final CmuLexicon LEXICON = CmuLexicon.load();

  private static List<Path> examples() throws IOException {
    try (Stream<Path> files = Files.list(FOLDER)) {
      return files.filter(file -> file.toString().endsWith(".yaml")).sorted().toList();
    }
  }

  private static PlanLint lint(Path file) throws IOException {
    return PlanLint.of(nameOf(file), PlanReader.read(file), LEXICON, FreeTtsVoice::sounds);
  }

  private static String nameOf(Path file) {
    return String.valueOf(file.getFileName());
  }

  private static String told(PlanLint lint) {
    List<String> lines =
        Stream.concat(
                lint.faults().stream().map(LintGalleryTest::withoutFileName),
                lint.open().stream().map("open: "::concat))
            .toList();
    return String.join("\n", lines) + "\n";
  }

  private static String withoutFileName(PlanFault fault) {
    return fault.weighedText().substring(fault.file().length() + 1);
  }

  @TestFactory
  Stream<DynamicTest> everyExampleIsToldExactlyThis() throws IOException {
    return examples().stream()
        .map(file -> DynamicTest.dynamicTest(nameOf(file), () -> compare(file)));
  }

  private static void compare(Path file) throws IOException {
    String actual = told(lint(file));
    Path expected = FOLDER.resolve(nameOf(file).replace(".yaml", ".txt"));
    if (Boolean.getBoolean("gallery.write")) {
      Files.writeString(expected, actual);
    }
    assertEquals(Files.readString(expected), actual, () -> "stale: " + expected);
  }

  /** The deep lint's sentences are the methods of its catalogue. */
  @Test
  void everySentenceOfTheDeepLintHasAnExample() throws IOException {
    Set<String> sentences =
        Arrays.stream(LintText.class.getDeclaredMethods())
            .filter(method -> !Modifier.isPrivate(method.getModifiers()) && !method.isSynthetic())
            .map(Method::getName)
            .map(name -> name.replaceAll("([A-Z])", "-$1").toLowerCase(Locale.ROOT))
            .collect(Collectors.toCollection(TreeSet::new));
    Set<String> examples =
        examples().stream()
            .map(file -> nameOf(file).replaceFirst("[~.].*", ""))
            .collect(Collectors.toSet());
    sentences.removeAll(examples);
    assertEquals(Set.of(), sentences);
  }

  @Test
  void whatIsRightOrBearsOtherwiseIsLeftAlone() {
    String text =
        """
        tallyback-plan: 1
        name: a job
        items:
          - {say: [wheel bolts], thing: bolt, count: 4, thread: M10x1.5, grade: "8.8", torque: {value: 45 N·m, tolerance: 10 %, tolerance-from: p. 1}}
          - {say: [drain plug], thing: plug, thread: M12x1.5, head: 17 mm, torque: {value: 300 N·m, tolerance: 10 %, tolerance-from: p. 1}}
          - {say: [head bolts], thing: bolt, count: 10, stretch: true, thread: M10, grade: "10.9", torque: {value: 250 N·m, tolerance: 10 %, tolerance-from: p. 1}}
          - {say: [banjo bolt], thing: bolt, thread: M10x1.0, grade: "8.8", torque: {value: 250 N·m, tolerance: 10 %, tolerance-from: p. 1}}
        """;
    PlanLint lint = PlanLint.of("p", PlanReader.read("p", text), LEXICON, word -> Optional.empty());
    assertEquals(List.of(), lint.faults());
  }

  @Test
  void aWordOfThePlansOwnPronunciationsIsKnown() {
    String text =
        """
        tallyback-plan: 1
        name: a job
        items: [{say: [quillerby lid]}]
        pronunciations: {quillerby: K W IH L ER B IY}
        """;
    PlanLint lint = PlanLint.of("p", PlanReader.read("p", text), LEXICON, word -> Optional.empty());
    assertEquals(List.of(), lint.faults());
  }

  @Test
  void theHeaviestWeightDecides() throws IOException {
    assertEquals(
        Optional.of(Weight.STOP), lint(FOLDER.resolve("sounds-alike~same.yaml")).heaviest());
    assertEquals(
        Optional.of(Weight.CHECK), lint(FOLDER.resolve("sounds-alike~much.yaml")).heaviest());
    assertEquals(Optional.of(Weight.NOTE), lint(FOLDER.resolve("head-unusual.yaml")).heaviest());
    assertEquals(Optional.empty(), lint(FOLDER.resolve("open.yaml")).heaviest());
    assertFalse(lint(FOLDER.resolve("open.yaml")).open().isEmpty());
  }
}

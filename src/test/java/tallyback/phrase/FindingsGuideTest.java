package tallyback.phrase;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import tallyback.model.Entry;
import tallyback.model.Finding;
import tallyback.model.Finding.Stage;
import tallyback.model.Weight;
import tallyback.reconcile.Example;

/**
 * The users' guide to the findings is made of the gallery's examples, told as Tallyback says them
 * back. Run with {@code -Dgallery.write=true} to write it anew; read the diff before committing.
 */
class FindingsGuideTest {

  private static final Path GUIDE = Path.of("src/main/resources/tallyback/report/findings.md");
  private static final DateTimeFormatter TIME =
      DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT).withZone(ZoneOffset.UTC);
  private static final String INTRODUCTION =
      """
      # What is found

      Each kind of finding with one example: what was told, and what is said about it. All machines, people and figures are
      invented. Right figures stand in your machine's manual; local rules and licensed practice decide.
      A *stop* and a *check* stand against a stage of the verdict until they are settled, a *note* stands against none. What is
      not confirmed may open a finding and never settles one. What only follows from another finding hangs under it.
      """;

  @Test
  void theGuideIsMadeOfTheGallery() throws IOException {
    String made = guide();
    if (Boolean.getBoolean("gallery.write")) {
      Files.writeString(GUIDE, made);
    }
    assertEquals(made, Files.readString(GUIDE), "stale: run with -Dgallery.write=true");
  }

  private static String guide() throws IOException {
    List<Example> examples = Example.all();
    StringBuilder guide = new StringBuilder(INTRODUCTION);
    for (Weight weight : Weight.values()) {
      guide.append("\n## ").append(heading(weight)).append('\n');
      examples.stream()
          .filter(example -> example.weight() == weight)
          .forEach(example -> add(guide, example));
    }
    return guide.toString();
  }

  private static String heading(Weight weight) {
    return switch (weight) {
      case STOP -> "Stops";
      case CHECK -> "Checks";
      case NOTE -> "Notes";
    };
  }

  private static void add(StringBuilder guide, Example example) {
    if (!example.special().isEmpty()) {
      guide.append("\nAgain, with ").append(example.special()).append(":\n\n");
    } else {
      guide.append("\n### ").append(example.kindName()).append("\n\n");
    }
    if (example.special().isEmpty() && !example.stages().isEmpty()) {
      guide
          .append("Stands against: ")
          .append(
              example.stages().stream()
                  .map(FindingsGuideTest::stage)
                  .collect(Collectors.joining(", ")))
          .append(".\n\n");
    }
    ReadBackText readBack = new ReadBackText(example.plan());
    for (Entry entry : example.entries()) {
      guide
          .append("    ")
          .append(TIME.format(entry.happenedAt()))
          .append("  ")
          .append(readBack.of(entry.statement()).written())
          .append(entry.confirmed() ? "" : "  (not confirmed)")
          .append('\n');
    }
    guide.append('\n');
    example.findings().forEach(finding -> add(guide, finding, ""));
  }

  private static String stage(Stage stage) {
    return switch (stage) {
      case START_FOR_TEST -> "start for test";
      case WORK -> "work";
      case HAND_OVER -> "hand-over";
    };
  }

  private static void add(StringBuilder guide, Finding finding, String indent) {
    guide
        .append(indent)
        .append("- **")
        .append(finding.weight().name().toLowerCase(Locale.ROOT))
        .append(": ")
        .append(finding.subject())
        .append(".** Expected: ")
        .append(finding.expected())
        .append(". Found: ")
        .append(finding.found())
        .append('.');
    append(guide, " Differs: ", finding.difference());
    append(guide, " Allowed: ", finding.tolerance());
    guide.append(" *").append(finding.remedy()).append("*\n");
    finding.followers().forEach(follower -> add(guide, follower, indent + "    "));
  }

  private static void append(
      StringBuilder guide, String label, @org.jspecify.annotations.Nullable String text) {
    if (text != null) {
      guide.append(label).append(text).append('.');
    }
  }
}

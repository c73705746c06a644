package tallyback.report;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * The guide to every kind of finding, as packed in the jar. Immutable, so any thread may use it.
 */
public final class FindingsGuide {

  private static final String PATH = "/tallyback/report/findings.md";
  private static final String KIND = "### ";

  private final String text;
  private final Map<String, String> byKind = new LinkedHashMap<>();

  private FindingsGuide(String text) {
    this.text = text;
    List<String> section = new ArrayList<>();
    for (String line : text.lines().toList()) {
      if (line.startsWith("#")) {
        close(section);
      }
      section.add(line);
    }
    close(section);
  }

  private void close(List<String> section) {
    if (!section.isEmpty() && section.get(0).startsWith(KIND)) {
      byKind.put(
          section.get(0).substring(KIND.length()), String.join("\n", section).strip() + "\n");
    }
    section.clear();
  }

  /** Reads it from the jar. */
  public static FindingsGuide packed() {
    try (InputStream in = FindingsGuide.class.getResourceAsStream(PATH)) {
      if (in == null) {
        throw new IllegalStateException(
            "the jar lacks " + PATH + ": build it again from a complete source tree");
      }
      return new FindingsGuide(new String(in.readAllBytes(), StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new UncheckedIOException("the jar's " + PATH + " can't be read", e);
    }
  }

  /** All of it, in Markdown. */
  public String text() {
    return text;
  }

  /** The part about one kind of finding, such as {@code left-in-tray}. */
  public Optional<String> about(String kind) {
    return Optional.ofNullable(byKind.get(kind));
  }

  /** Every kind, in the order of the guide. */
  public List<String> kinds() {
    return List.copyOf(byKind.keySet());
  }
}

package tallyback.app;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;

/** What is repeated to teach a voice: 20 entries in which the sounds and numbers of all occur. */
final class TeachingLines {

  private static final String LINES = "/tallyback/teach/lines.txt";
  private static final String PLAN = "/tallyback/demo-data/plan.yaml";

  private TeachingLines() {}

  /** The lines, each as its words. */
  static List<List<String>> all() {
    return text(LINES).lines().map(line -> List.of(line.split(" ", -1))).toList();
  }

  /** The plan that the lines belong to: they are heard among all else that can be said of it. */
  static LoadedPlan plan() {
    return LoadedPlan.of("the demo's plan", text(PLAN));
  }

  private static String text(String resource) {
    try (InputStream in = TeachingLines.class.getResourceAsStream(resource)) {
      if (in == null) {
        throw new IllegalStateException("the jar lacks " + resource + ": build it again");
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException("the jar's " + resource + " can't be read", e);
    }
  }
}

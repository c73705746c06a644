package tallyback.bench.hearing;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.HashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * What was heard already, a line each, so that a run that was broken off goes on where it was. A
 * last line that was not finished is heard again.
 *
 * <p>One thread. Closing it closes the file.
 */
final class HeardFile implements AutoCloseable {

  private final Map<String, Heard> heard = new HashMap<>();
  private final PrintWriter out;

  private HeardFile(PrintWriter out) {
    this.out = out;
  }

  /** Opens a file, and makes it and its folder when there is none. */
  static HeardFile open(Path file) throws IOException {
    Files.createDirectories(file.toAbsolutePath().getParent());
    String before = Files.exists(file) ? Files.readString(file, StandardCharsets.UTF_8) : "";
    HeardFile opened =
        new HeardFile(
            new PrintWriter(
                Files.newBufferedWriter(
                    file,
                    StandardCharsets.UTF_8,
                    StandardOpenOption.CREATE,
                    StandardOpenOption.APPEND)));
    before.lines().map(Heard::of).forEach(opened::remember);
    if (!before.isEmpty() && !before.endsWith("\n")) {
      opened.out.println();
    }
    return opened;
  }

  private void remember(@Nullable Heard line) {
    if (line != null) {
      heard.put(line.key(), line);
    }
  }

  @Nullable Heard find(String set, String noise, String snr, String utterance) {
    return heard.get(String.join("\t", set, noise, snr, utterance));
  }

  /** Keeps a hearing; it is in the file before this returns. */
  void add(Heard line) {
    remember(line);
    out.println(line.line());
    out.flush();
  }

  @Override
  public void close() {
    out.close();
  }
}

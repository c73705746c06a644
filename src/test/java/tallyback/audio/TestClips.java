package tallyback.audio;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.net.URISyntaxException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;

/** The ten spoken clips of the test resources; voices and licence in the file beside them. */
public final class TestClips {

  /**
   * A clip and what is said in it.
   *
   * @param file its name
   * @param said its words
   * @param clip its sound
   */
  public record Spoken(String file, String said, Clip clip) {

    /** The words one by one. */
    public List<String> words() {
      return List.of(said.split(" "));
    }
  }

  private TestClips() {}

  /** All of them, in order. */
  public static List<Spoken> all() {
    try (InputStream in =
        Objects.requireNonNull(TestClips.class.getResourceAsStream("/audio/clips.tsv"))) {
      String table = new String(in.readAllBytes(), StandardCharsets.UTF_8);
      return table
          .lines()
          .map(line -> line.split("\t"))
          .map(fields -> new Spoken(fields[0], fields[1], read(fields[0])))
          .toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static Clip read(String name) {
    try {
      Path file =
          Path.of(Objects.requireNonNull(TestClips.class.getResource("/audio/" + name)).toURI());
      try (WavSource source = WavSource.open(file)) {
        return source.readAll();
      }
    } catch (IOException | URISyntaxException e) {
      throw new IllegalStateException(name, e);
    }
  }
}

package tallyback.bench.hearing;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import tallyback.audio.Clip;
import tallyback.audio.WavSource;

/** WAV files of a folder. */
final class Recordings {

  private Recordings() {}

  /** All of them, those in folders inside too, in alphabetical order. */
  static List<Path> in(Path folder) throws IOException {
    if (!Files.isDirectory(folder)) {
      throw new IllegalArgumentException(folder + ": expected a folder, found none");
    }
    try (Stream<Path> files = Files.walk(folder)) {
      return files
          .filter(file -> file.toString().toLowerCase(Locale.ROOT).endsWith(".wav"))
          .sorted()
          .toList();
    }
  }

  static Clip read(Path file) throws IOException {
    try (WavSource source = WavSource.open(file)) {
      return source.readAll();
    }
  }
}

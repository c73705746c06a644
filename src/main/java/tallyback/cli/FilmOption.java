package tallyback.cli;

import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;
import tallyback.app.Clock;
import tallyback.app.FilmSounds;

/** Which program takes the sound out of films. */
final class FilmOption {

  private static final long STEP_MS = 10_000;

  @Option(
      names = "--ffmpeg",
      paramLabel = "PROGRAM",
      description =
          "The ffmpeg that takes the sound out of films; ffprobe lies beside it. Default:"
              + " $$TALLYBACK_FFMPEG, else ffmpeg in settings.txt of the home, else the one on the"
              + " PATH.")
  private @Nullable String ffmpeg;

  /** The program, and where it was set. */
  Setting.Set set(Path home) {
    return Setting.FFMPEG.value(ffmpeg, System.getenv(), home);
  }

  /** To take sounds out with, telling a terminal how far it is. */
  FilmSounds sounds(Path home, Console console) {
    long[] next = {0};
    return new FilmSounds(
        set(home).value(),
        (film, done, of) -> {
          if (done >= next[0] || done < next[0] - STEP_MS) {
            next[0] = done + STEP_MS;
            progress(console, film + ": taking its sound out, " + far(done, of));
          }
        });
  }

  /** How far something is, in words. */
  static String far(long doneMs, long ofMs) {
    return Clock.of(doneMs / 1000 * 1000)
        + (ofMs == 0 ? "" : " of " + Clock.of(ofMs / 1000 * 1000));
  }

  /** On one line of a terminal, and nowhere else. */
  static void progress(Console console, String line) {
    if (console.terminal()) {
      console.err().print("\r\u001b[K" + line);
      console.err().flush();
    }
  }

  /** Takes that line away again. */
  static void progressOver(Console console) {
    progress(console, "");
  }
}

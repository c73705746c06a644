package tallyback.web;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import tallyback.audio.Clip;
import tallyback.log.LogReader;
import tallyback.log.LogRefused;
import tallyback.log.sqlite.SqliteLogs;
import tallyback.model.Entry;

/**
 * How much of a recording the log holds already: the entries' ids name stream and first sample. So
 * a page that sends again what was noted before this server was started notes nothing twice.
 */
final class NotedSound {

  private static final int WAV_HEADER = 44;

  private NotedSound() {}

  /**
   * The sample behind the last entry of a stream.
   *
   * @param stream as in {@link tallyback.app.LiveSound.Spot}
   * @return 0 when there is none
   */
  static long end(Path data, String job, String stream) {
    if (!Files.exists(data)) {
      return 0;
    }
    try (LogReader log = SqliteLogs.openForReading(data)) {
      return log.entries(job).stream()
          .filter(entry -> entry.id().startsWith(stream + "-"))
          .mapToLong(entry -> end(log, entry, stream))
          .max()
          .orElse(0);
    } catch (LogRefused notThereYet) {
      return 0;
    }
  }

  private static long end(LogReader log, Entry entry, String stream) {
    String rest = entry.id().substring(stream.length() + 1).replaceFirst("[^0-9].*", "");
    String clip = entry.clip();
    if (rest.isEmpty() || rest.length() > 15 || clip == null) {
      return 0;
    }
    Optional<byte[]> sound = log.clip(clip);
    long samples =
        sound.map(bytes -> (bytes.length - WAV_HEADER) / Short.BYTES).orElse(Clip.SAMPLE_RATE_HZ);
    return Long.parseLong(rest) + samples;
  }
}

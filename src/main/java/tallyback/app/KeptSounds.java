package tallyback.app;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.log.LogReader;
import tallyback.log.sqlite.SqliteLogs;
import tallyback.model.Entry;
import tallyback.model.Statement.Memo;
import tallyback.model.Statement.NotUnderstood;

/** The sound of entries that are nothing without it: memos, and what was not understood. */
public final class KeptSounds {

  /** A record with more sound than this is slow to open; it is a quarter of an hour and more. */
  private static final long MOST_BYTES = 32L << 20;

  private KeptSounds() {}

  /**
   * Reads them.
   *
   * @param data the data file
   * @param entries the entries of a job
   * @return WAV files by their hash, the first ones when they are too many; what was taken out of
   *     the log is not among them
   */
  public static Map<String, byte[]> read(Path data, List<Entry> entries) {
    Map<String, byte[]> sounds = new LinkedHashMap<>();
    long bytes = 0;
    try (LogReader log = SqliteLogs.openForReading(data)) {
      for (Entry entry : entries) {
        @Nullable String hash = entry.clip();
        Optional<byte[]> sound =
            hash == null || !isWanted(entry) ? Optional.empty() : log.clip(hash);
        if (sound.isPresent() && hash != null && bytes + sound.get().length <= MOST_BYTES) {
          bytes += sound.get().length;
          sounds.put(hash, sound.get());
        }
      }
    }
    return sounds;
  }

  private static boolean isWanted(Entry entry) {
    return entry.statement() instanceof Memo || entry.statement() instanceof NotUnderstood;
  }
}

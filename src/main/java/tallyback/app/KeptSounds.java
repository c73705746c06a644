package tallyback.app;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.log.ClipAltered;
import tallyback.log.LogReader;
import tallyback.log.sqlite.SqliteLogs;
import tallyback.model.Entry;
import tallyback.model.Statement.Memo;
import tallyback.model.Statement.NotUnderstood;
import tallyback.model.Statement.PictureTaken;

/**
 * The sound of entries, for whoever hears them again. The record holds that of entries that are
 * nothing without it, memos and what was not understood; the timeline holds all.
 */
public final class KeptSounds {

  /** A record with more sound than this is slow to open; it is a quarter of an hour and more. */
  private static final long MOST_BYTES = 32L << 20;

  /** Said of a sound that is not in the log. */
  public static final String MISSING =
      "The sound of this entry is not in the data file any more: it was taken out.";

  private static final String ALTERED =
      "The sound of this entry was altered after it was noted, so that it is not played: 'verify'"
          + " tells more.";

  private static final String TOO_MUCH =
      "This sound is not in this file, which would grow too large with it; 'serve' plays it.";

  private KeptSounds() {}

  /** The bytes in the log are not those that were noted. */
  public static final class Altered extends RuntimeException {

    private static final long serialVersionUID = 1;

    private Altered(ClipAltered cause) {
      super(ALTERED, cause);
    }
  }

  /**
   * The sounds of a job.
   *
   * @param sounds WAV files by their hash
   * @param silent why another is not among them, in words, by its hash
   */
  public record All(Map<String, byte[]> sounds, Map<String, String> silent) {}

  /**
   * The sound of every entry, the first ones when they are too many.
   *
   * @param data the data file
   * @param entries the entries of a job
   */
  public static All all(Path data, List<Entry> entries) {
    Map<String, byte[]> sounds = new LinkedHashMap<>();
    Map<String, String> silent = new LinkedHashMap<>();
    long bytes = 0;
    try (LogReader log = SqliteLogs.openForReading(data)) {
      for (Entry entry : entries) {
        String hash = entry.clip();
        if (hash == null
            || entry.statement() instanceof PictureTaken
            || sounds.containsKey(hash)
            || silent.containsKey(hash)) {
          continue;
        }
        try {
          byte[] sound = clip(log, hash).orElse(null);
          if (sound == null) {
            silent.put(hash, MISSING);
          } else if (bytes + sound.length > MOST_BYTES) {
            silent.put(hash, TOO_MUCH);
          } else {
            bytes += sound.length;
            sounds.put(hash, sound);
          }
        } catch (Altered e) {
          silent.put(hash, ALTERED);
        }
      }
    }
    return new All(sounds, silent);
  }

  /**
   * One sound.
   *
   * @param hash what entries name it by
   * @return a WAV file; empty when it was taken out of the log
   * @throws Altered if it was changed after it was noted
   */
  public static Optional<byte[]> of(Path data, String hash) {
    try (LogReader log = SqliteLogs.openForReading(data)) {
      return clip(log, hash);
    }
  }

  private static Optional<byte[]> clip(LogReader log, String hash) {
    try {
      return log.clip(hash);
    } catch (ClipAltered altered) {
      throw new Altered(altered);
    }
  }

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

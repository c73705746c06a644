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
import tallyback.model.Statement.PictureTaken;

/** The reduced copies of photos that the log holds. */
public final class KeptPictures {

  /** A record with more is slow to open; it is some hundred and fifty pictures. */
  private static final long MOST_BYTES = 48L << 20;

  private KeptPictures() {}

  /**
   * Reads them.
   *
   * @param data the data file
   * @param entries the entries of a job
   * @return JPEG files by the id of their entry, the first ones when they are too many; what was
   *     taken out of the log is not among them
   */
  public static Map<String, byte[]> read(Path data, List<Entry> entries) {
    Map<String, byte[]> pictures = new LinkedHashMap<>();
    if (entries.stream().noneMatch(KeptPictures::isPicture)) {
      return pictures;
    }
    long bytes = 0;
    try (LogReader log = SqliteLogs.openForReading(data)) {
      for (Entry entry : entries) {
        Optional<byte[]> picture = picture(log, entry);
        if (picture.isPresent() && bytes + picture.get().length <= MOST_BYTES) {
          bytes += picture.get().length;
          pictures.put(entry.id(), picture.get());
        }
      }
    }
    return pictures;
  }

  /**
   * The picture of one entry.
   *
   * @param job its job
   * @param entry its id
   * @return a JPEG file; empty when there is no such entry, it is no picture, or it was taken out
   *     of the log
   */
  public static Optional<byte[]> one(Path data, String job, String entry) {
    try (LogReader log = SqliteLogs.openForReading(data)) {
      return log.entries(job).stream()
          .filter(each -> each.id().equals(entry))
          .findFirst()
          .flatMap(each -> picture(log, each));
    }
  }

  private static Optional<byte[]> picture(LogReader log, Entry entry) {
    @Nullable String hash = entry.clip();
    return hash == null || !isPicture(entry) ? Optional.empty() : log.clip(hash);
  }

  private static boolean isPicture(Entry entry) {
    return entry.statement() instanceof PictureTaken;
  }
}

package tallyback.log.sqlite;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import org.jspecify.annotations.Nullable;
import tallyback.log.LogFailed;

/**
 * The small file beside the data file ({@code NAME.writer}) that says who is writing, and which
 * entry was acknowledged last.
 *
 * <p>The operating system's lock on it goes with its process, so that a writer that was killed
 * keeps nobody out. What a killed writer leaves in it lets the next one find out that acknowledged
 * entries are gone, as when the {@code -wal} file was taken away. Sound numbering doesn't hang on
 * this file: each append numbers its entry inside a transaction of the database.
 *
 * <p>Not thread-safe. {@link #close} removes the file, {@link #abandon} leaves it as it was found.
 */
final class WriterMark implements AutoCloseable {

  /**
   * The last entry that was acknowledged.
   *
   * @param job its job
   * @param seq its sequence number
   * @param hash its hash
   */
  record Acknowledged(String job, long seq, String hash) {}

  /** Far behind the text, because on some systems nobody else can read the locked bytes. */
  private static final long LOCK_POSITION = 1L << 40;

  /** One disk sector or a few: always written whole, so that its length never changes. */
  private static final int TEXT_BYTES = 1024;

  /**
   * A second lock by this process would succeed or, worse, drop the first when it is closed; so
   * they are counted here.
   */
  private static final Set<Path> HELD = ConcurrentHashMap.newKeySet();

  private final Path path;
  private final RandomAccessFile file;
  private final Map<String, String> found;
  private final Map<String, String> mine = new HashMap<>();
  private boolean closed;

  private WriterMark(Path path, RandomAccessFile file, Map<String, String> found) {
    this.path = path;
    this.file = file;
    this.found = found;
  }

  static Path pathFor(Path dataFile) {
    return dataFile.resolveSibling(dataFile.getFileName() + ".writer");
  }

  /**
   * Takes the mark for this process.
   *
   * @throws LogFailed if another writer holds it, naming that writer, or if the folder can't be
   *     written
   */
  static WriterMark take(Path dataFile) {
    Path path = pathFor(dataFile);
    if (!HELD.add(path)) {
      throw new LogFailed(
          dataFile
              + ": locked: this same process (number "
              + ProcessHandle.current().pid()
              + ") is writing it already; close that first");
    }
    boolean taken = false;
    try {
      WriterMark mark = lock(dataFile, path);
      taken = true;
      return mark;
    } catch (IOException e) {
      throw new LogFailed(
          dataFile
              + ": can't be written: "
              + path
              + " can't be made beside it ("
              + reason(e)
              + "); make the folder writable, or use another file",
          e);
    } finally {
      if (!taken) {
        HELD.remove(path);
      }
    }
  }

  private static WriterMark lock(Path dataFile, Path path) throws IOException {
    RandomAccessFile file = new RandomAccessFile(path.toFile(), "rw");
    boolean locked = false;
    try {
      Map<String, String> found = read(file);
      if (tryLock(file) == null) {
        throw new LogFailed(
            dataFile + ": locked: " + holder(found) + " is writing it; close that first");
      }
      locked = true;
      return new WriterMark(path, file, found);
    } finally {
      if (!locked) {
        file.close();
      }
    }
  }

  /** The lock lives as long as the file is open, so nobody needs to keep it. */
  private static @Nullable FileLock tryLock(RandomAccessFile file) throws IOException {
    try {
      return file.getChannel().tryLock(LOCK_POSITION, 1, false);
    } catch (OverlappingFileLockException e) {
      return null;
    }
  }

  private static String holder(Map<String, String> found) {
    String pid = found.get("pid");
    return pid == null
        ? "another process, just starting,"
        : "process " + pid + " on " + found.get("host") + ", since " + found.get("since") + ",";
  }

  private static String reason(IOException e) {
    return e.getMessage() == null ? e.getClass().getSimpleName() : e.getMessage();
  }

  /** What the last writer acknowledged last, when it didn't close the log. */
  Optional<Acknowledged> leftBehind() {
    return acknowledged(found);
  }

  /** The same for somebody who only looks; whoever writes now may be further on already. */
  static Optional<Acknowledged> leftBehind(Path dataFile) {
    Path path = pathFor(dataFile);
    // Opening and closing it in the process that holds it would drop the lock (POSIX record locks).
    if (HELD.contains(path) || !Files.isReadable(path)) {
      return Optional.empty();
    }
    try (RandomAccessFile file = new RandomAccessFile(path.toFile(), "r")) {
      return acknowledged(read(file));
    } catch (IOException e) {
      return Optional.empty();
    }
  }

  private static Optional<Acknowledged> acknowledged(Map<String, String> text) {
    String job = text.get("job");
    String seq = text.get("seq");
    String hash = text.get("hash");
    return job == null || seq == null || hash == null || !seq.matches("[0-9]{1,18}")
        ? Optional.empty()
        : Optional.of(new Acknowledged(job, Long.parseLong(seq), hash));
  }

  /** Puts this process's name in. */
  void sign() throws IOException {
    mine.put("pid", Long.toString(ProcessHandle.current().pid()));
    mine.put("host", host());
    mine.put("since", Instant.now().truncatedTo(ChronoUnit.SECONDS).toString());
    write();
  }

  /** Remembers an entry that is on disk; called before anybody is told so. */
  void acknowledge(Acknowledged entry) {
    mine.put("job", entry.job());
    mine.put("seq", Long.toString(entry.seq()));
    mine.put("hash", entry.hash());
    try {
      write();
    } catch (IOException e) {
      // The entry itself is on disk. An older mark is still true, so nothing is wrong that anybody
      // could act on.
    }
  }

  /** Looks the host's name up without the network, which a shed may not have. */
  private static String host() {
    try {
      String name = Files.readString(Path.of("/etc/hostname")).strip();
      if (!name.isEmpty()) {
        return name;
      }
    } catch (IOException e) {
      // Not every system has that file.
    }
    String name = System.getenv("COMPUTERNAME");
    return name == null ? "this machine" : name;
  }

  private void write() throws IOException {
    StringBuilder text = new StringBuilder();
    mine.forEach((key, value) -> text.append(key).append('=').append(value).append('\n'));
    byte[] utf8 = text.toString().getBytes(StandardCharsets.UTF_8);
    byte[] whole = new byte[Math.max(TEXT_BYTES, utf8.length)];
    Arrays.fill(whole, (byte) ' ');
    System.arraycopy(utf8, 0, whole, 0, utf8.length);
    // Not through the channel: a thread interrupted there would close the file and lose the lock.
    file.seek(0);
    file.write(whole);
  }

  private static Map<String, String> read(RandomAccessFile file) throws IOException {
    byte[] bytes = new byte[TEXT_BYTES];
    int length = 0;
    file.seek(0);
    for (int n = 0;
        n >= 0 && length < bytes.length;
        n = file.read(bytes, length, bytes.length - length)) {
      length += n;
    }
    Map<String, String> entries = new HashMap<>();
    new String(bytes, 0, length, StandardCharsets.UTF_8)
        .lines()
        .filter(line -> line.indexOf('=') > 0)
        .forEach(
            line ->
                entries.put(
                    line.substring(0, line.indexOf('=')), line.substring(line.indexOf('=') + 1)));
    return entries;
  }

  /**
   * Lets go and leaves what was found, so that the next writer is warned too; removes what was
   * empty.
   */
  void abandon() {
    if (found.isEmpty()) {
      close();
    } else {
      release(false);
    }
  }

  @Override
  public void close() {
    release(true);
  }

  private void release(boolean remove) {
    if (closed) {
      return;
    }
    closed = true;
    try (file) {
      if (remove) {
        Files.deleteIfExists(path);
      }
    } catch (IOException e) {
      // Some systems don't remove an open file; an old mark that stays behind does no harm.
    } finally {
      HELD.remove(path);
    }
  }
}

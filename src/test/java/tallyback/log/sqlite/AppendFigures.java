package tallyback.log.sqlite;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.sql.SQLException;
import java.util.Arrays;
import java.util.Locale;
import tallyback.log.Examples;
import tallyback.log.JobLog;
import tallyback.log.SoundClip;
import tallyback.model.Statement.Memo;

/**
 * How long noting one entry takes: as it is, with flushing switched off, and beside a bare write
 * and flush of the same disk. Prints medians in milliseconds. Takes the folder whose disk is meant.
 */
final class AppendFigures {

  private static final int WARM_UP = 100;
  private static final int COUNTED = 400;
  private static final int CLIP_BYTES = 96_000; // three seconds at 16 kHz, 16 bit

  private AppendFigures() {}

  public static void main(String[] args) throws IOException {
    Path folder = Files.createTempDirectory(Path.of(args[0]), "figures");
    for (String synchronous : new String[] {"FULL", "OFF"}) {
      for (boolean sound : new boolean[] {false, true}) {
        Path file = folder.resolve(synchronous + sound + ".db");
        System.out.printf(
            Locale.ROOT,
            "append, synchronous=%s, %s: %.2f ms%n",
            synchronous,
            sound ? CLIP_BYTES + " bytes of sound" : "no sound",
            medianOfAppends(file, synchronous, sound));
        DataFile.deleteWithSideFiles(file);
      }
    }
    indexed(folder.resolve("indexed.db"));
    System.out.printf(
        Locale.ROOT,
        "bare write of 4096 bytes and flush: %.2f ms%n",
        medianOfFlushes(folder.resolve("bare")));
    Files.deleteIfExists(folder.resolve("bare"));
    Files.deleteIfExists(folder);
  }

  private static double medianOfAppends(Path file, String synchronous, boolean sound) {
    try (JobLog log = SqliteLogs.openForWriting(file, new DataFile.Tuning(3000, 0, synchronous))) {
      log.openJob(Examples.draft("pump", "opening", Examples.opening(Examples.PLAN)));
      long[] nanos = new long[COUNTED];
      for (int i = -WARM_UP; i < COUNTED; i++) {
        SoundClip clip = sound ? Examples.clip(i, CLIP_BYTES) : null;
        long start = System.nanoTime();
        log.append(Examples.draft("pump", "n" + i, new Memo()), clip);
        if (i >= 0) {
          nanos[i] = System.nanoTime() - start;
        }
      }
      return medianMs(nanos);
    }
  }

  /** The same entries with the index of jobs and without, turn by turn in blocks of twenty. */
  private static void indexed(Path file) throws IOException {
    Path without = file.resolveSibling("without.db");
    try (JobLog with = SqliteLogs.openForWriting(file);
        JobLog bare = SqliteLogs.openForWriting(without)) {
      with.openJob(Examples.draft("pump", "opening", Examples.opening(Examples.PLAN)));
      bare.openJob(Examples.draft("pump", "opening", Examples.opening(Examples.PLAN)));
      TestFile.tamper(without, "UPDATE index_made SET version = 0");
      long[] indexed = new long[COUNTED];
      long[] plain = new long[COUNTED];
      for (int i = -WARM_UP; i < COUNTED; i++) {
        for (boolean both : new boolean[] {i % 40 < 20, i % 40 >= 20}) {
          long start = System.nanoTime();
          (both ? with : bare)
              .append(
                  Examples.draft("pump", "n" + i, new Memo(null, "the seal weeps a little")), null);
          if (i >= 0) {
            (both ? indexed : plain)[i] = System.nanoTime() - start;
          }
        }
      }
      System.out.printf(
          Locale.ROOT,
          "append with the index %.2f ms, without %.2f ms%n",
          medianMs(indexed),
          medianMs(plain));
    } catch (SQLException e) {
      throw new IOException(e);
    }
    DataFile.deleteWithSideFiles(file);
    DataFile.deleteWithSideFiles(without);
  }

  private static double medianOfFlushes(Path file) throws IOException {
    try (FileChannel channel =
        FileChannel.open(file, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE)) {
      long[] nanos = new long[COUNTED];
      for (int i = -WARM_UP; i < COUNTED; i++) {
        long start = System.nanoTime();
        channel.write(ByteBuffer.allocate(4096));
        channel.force(false);
        if (i >= 0) {
          nanos[i] = System.nanoTime() - start;
        }
      }
      return medianMs(nanos);
    }
  }

  private static double medianMs(long[] nanos) {
    Arrays.sort(nanos);
    return nanos[nanos.length / 2] / 1e6;
  }
}

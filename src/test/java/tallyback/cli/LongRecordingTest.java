package tallyback.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A recorder left running for three hours: heard in less memory than the file is long. */
@Tag("slow")
class LongRecordingTest {

  private static final int RATE_HZ = 16_000;
  private static final int HEADER_BYTES = 44;
  private static final long DATA_BYTES = 3L * 3600 * RATE_HZ * Short.BYTES;

  /** Room for the recogniser's models and search; the file alone would need 330 MB. */
  private static final String HEAP = "-Xmx300m";

  @TempDir private Path folder;

  private void speak(RandomAccessFile file, int atSeconds, String clip) throws IOException {
    byte[] whole = Files.readAllBytes(Path.of("demo-data/audio", clip));
    file.seek(HEADER_BYTES + (long) atSeconds * RATE_HZ * Short.BYTES);
    file.write(Arrays.copyOfRange(whole, HEADER_BYTES, whole.length));
  }

  /** Silence that takes no room on the disk, and three entries in it. */
  private Path threeHours() throws IOException {
    Path path = folder.resolve("afternoon.wav");
    try (RandomAccessFile file = new RandomAccessFile(path.toFile(), "rw")) {
      ByteBuffer header = ByteBuffer.allocate(HEADER_BYTES).order(ByteOrder.LITTLE_ENDIAN);
      header.put("RIFF".getBytes(StandardCharsets.US_ASCII)).putInt((int) (36 + DATA_BYTES));
      header.put("WAVEfmt ".getBytes(StandardCharsets.US_ASCII)).putInt(16);
      header.putShort((short) 1).putShort((short) 1).putInt(RATE_HZ).putInt(RATE_HZ * 2);
      header.putShort((short) 2).putShort((short) 16);
      header.put("data".getBytes(StandardCharsets.US_ASCII)).putInt((int) DATA_BYTES);
      file.write(header.array());
      file.setLength(HEADER_BYTES + DATA_BYTES);
      speak(file, 60, "004-090120.wav");
      speak(file, 5400, "005-090150.wav");
      speak(file, 10_790, "003-090105.wav");
    }
    return path;
  }

  @Test
  void isHeardInConstantMemoryAndEachEntryHasItsTime() throws IOException {
    Path recording = threeHours();
    assertTrue(Files.size(recording) > 345_000_000);
    Path data = folder.resolve("job.tallyback");
    long start = System.nanoTime();
    Ran heard =
        OwnProcess.start(
                folder,
                List.of(),
                List.of(HEAP),
                "hear",
                recording,
                "--plan",
                "demo-data/plan.yaml",
                "--data",
                data,
                "--at",
                "2026-03-02T09:00:00Z")
            .finish();
    long seconds = (System.nanoTime() - start) / 1_000_000_000;
    assertEquals("", heard.err());
    assertEquals(0, heard.code());
    assertEquals(3, heard.outLines().size(), heard.out());
    assertEquals(
        Ran.lines("1 job, 4 entries, 3 sound clips: all in order"),
        Ran.command("verify", "--data", data).out());
    assertTrue(heard.outLines().get(2).startsWith("10790."), heard.out());
    System.out.println("three hours of sound heard in " + seconds + " s\n" + heard.out());
    assertTrue(seconds < 300, seconds + " s");
  }
}

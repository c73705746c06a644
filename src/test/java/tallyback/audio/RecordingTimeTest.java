package tallyback.audio;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Instant;
import java.time.ZoneId;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Files are laid out here byte by byte after EBU Tech 3285 and the RIFF specification of 1991. */
class RecordingTimeTest {

  private static final ZoneId SHOP = ZoneId.of("Europe/Berlin");
  private static final Instant CHANGED = Instant.parse("2026-03-02T12:00:00Z");

  /** Two seconds of 16 kHz mono. */
  private static final byte[] SOUND = chunk("data", new byte[64_000]);

  @TempDir Path folder;

  private static byte[] chunk(String tag, byte[] body) {
    int padded = body.length + (body.length & 1);
    ByteBuffer bytes = ByteBuffer.allocate(8 + padded).order(ByteOrder.LITTLE_ENDIAN);
    bytes.put(tag.getBytes(StandardCharsets.US_ASCII)).putInt(body.length).put(body);
    return bytes.array();
  }

  private static byte[] format() {
    ByteBuffer body = ByteBuffer.allocate(16).order(ByteOrder.LITTLE_ENDIAN);
    body.putShort((short) 1).putShort((short) 1).putInt(16_000).putInt(32_000);
    body.putShort((short) 2).putShort((short) 16);
    return chunk("fmt ", body.array());
  }

  private static byte[] broadcast(String date, String time) {
    byte[] body = new byte[602];
    byte[] moment = (date + time).getBytes(StandardCharsets.US_ASCII);
    System.arraycopy(moment, 0, body, 256 + 32 + 32, moment.length);
    return chunk("bext", body);
  }

  private static byte[] info(String tag, String text) {
    byte[] entry = chunk(tag, (text + "\0").getBytes(StandardCharsets.US_ASCII));
    byte[] body = new byte[4 + entry.length];
    System.arraycopy("INFO".getBytes(StandardCharsets.US_ASCII), 0, body, 0, 4);
    System.arraycopy(entry, 0, body, 4, entry.length);
    return chunk("LIST", body);
  }

  private RecordingTime of(byte[]... chunks) throws IOException {
    ByteArrayOutputStream all = new ByteArrayOutputStream();
    for (byte[] chunk : chunks) {
      all.write(chunk);
    }
    byte[] body = new byte[4 + all.size()];
    System.arraycopy("WAVE".getBytes(StandardCharsets.US_ASCII), 0, body, 0, 4);
    System.arraycopy(all.toByteArray(), 0, body, 4, all.size());
    Path file = Files.write(folder.resolve("talk.wav"), chunk("RIFF", body));
    Files.setLastModifiedTime(file, FileTime.from(CHANGED));
    return RecordingTime.of(file, SHOP);
  }

  private static RecordingTime written(String time) {
    return new RecordingTime(Instant.parse(time), true);
  }

  @ParameterizedTest
  @CsvSource({
    "2026-03-02, 09:15:30",
    "2026:03:02, 09:15:30",
    "2026_03_02, 09_15_30",
    "2026.03.02, 09-15-30"
  })
  void aBroadcastWaveTellsItsTimeOfDayInTheShop(String date, String time) throws IOException {
    assertEquals(written("2026-03-02T08:15:30Z"), of(broadcast(date, time), format(), SOUND));
  }

  @ParameterizedTest
  @CsvSource({
    "2026-03-02T09:15:30, 2026-03-02T08:15:30Z",
    "2026-03-02 09:15, 2026-03-02T08:15:00Z",
    "2026-03-02T09:15:30Z, 2026-03-02T09:15:30Z",
    "2026-03-02T09:15:30.250+05:00, 2026-03-02T04:15:30Z"
  })
  void theDateOfCreationTellsIfItHasATimeAlsoAfterTheSound(String text, String time)
      throws IOException {
    assertEquals(written(time), of(format(), SOUND, info("ICRD", text)));
    assertEquals(written(time), of(format(), info("ICRD", text), SOUND));
  }

  @Test
  void theBroadcastTimeGoesFirst() throws IOException {
    assertEquals(
        written("2026-03-02T08:15:30Z"),
        of(
            info("ICRD", "2025-01-01T00:00:00"),
            broadcast("2026-03-02", "09:15:30"),
            format(),
            SOUND));
  }

  @Test
  void elseTheLastChangeIsTheEndOfTheRecording() throws IOException {
    assertEquals(new RecordingTime(CHANGED.minusSeconds(2), false), of(format(), SOUND));
  }

  @Test
  void aLengthThatWasNeverFilledInReachesToTheEnd() throws IOException {
    byte[] open = SOUND.clone();
    ByteBuffer.wrap(open).order(ByteOrder.LITTLE_ENDIAN).putInt(4, 0);
    assertEquals(new RecordingTime(CHANGED.minusSeconds(2), false), of(format(), open));
  }

  @ParameterizedTest
  @CsvSource({"0000-00-00, 00:00:00", "2026-13-02, 09:15:30", "'          ', '        '"})
  void aClockThatWasNeverSetIsNoTime(String date, String time) throws IOException {
    assertEquals(
        new RecordingTime(CHANGED.minusSeconds(2), false),
        of(broadcast(date, time), format(), SOUND));
  }

  @ParameterizedTest
  @CsvSource({"2026-03-02", "2026", "this morning", "2026-03-02T09:15:30+99:00"})
  void aDateWithoutATimeOfDayIsNoTime(String text) throws IOException {
    assertEquals(
        new RecordingTime(CHANGED.minusSeconds(2), false), of(format(), info("ICRD", text), SOUND));
  }

  @Test
  void aListThatClaimsMoreThanThereIsDoesNoHarm() throws IOException {
    byte[] list = info("ICRD", "2026-03-02T09:15:30");
    ByteBuffer.wrap(list).order(ByteOrder.LITTLE_ENDIAN).putInt(16, 1_000_000);
    assertEquals(new RecordingTime(CHANGED.minusSeconds(2), false), of(format(), SOUND, list));
  }
}

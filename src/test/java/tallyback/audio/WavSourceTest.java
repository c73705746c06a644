package tallyback.audio;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class WavSourceTest {

  private static final String WANTED =
      ": expected a WAV file of 16-bit PCM, 8 to 96 kHz, one or two channels, found ";

  @TempDir Path folder;

  private static byte[] wav(
      int coding, int channels, int rateHz, int bits, byte[] data, long statedLength) {
    ByteBuffer bytes = ByteBuffer.allocate(44 + data.length).order(ByteOrder.LITTLE_ENDIAN);
    bytes.put("RIFF".getBytes(StandardCharsets.US_ASCII)).putInt(36 + data.length);
    bytes
        .put("WAVEfmt ".getBytes(StandardCharsets.US_ASCII))
        .putInt(16)
        .putShort((short) coding)
        .putShort((short) channels);
    bytes
        .putInt(rateHz)
        .putInt(rateHz * channels * bits / 8)
        .putShort((short) (channels * bits / 8))
        .putShort((short) bits);
    bytes.put("data".getBytes(StandardCharsets.US_ASCII)).putInt((int) statedLength).put(data);
    return bytes.array();
  }

  private static byte[] wav(int channels, int rateHz, short... samples) {
    ByteBuffer data = ByteBuffer.allocate(samples.length * 2).order(ByteOrder.LITTLE_ENDIAN);
    data.asShortBuffer().put(samples);
    return wav(1, channels, rateHz, 16, data.array(), data.capacity());
  }

  private Path file(byte[] content) throws IOException {
    return Files.write(folder.resolve("clip.wav"), content);
  }

  private String refusal(byte[] content) throws IOException {
    Path file = file(content);
    AudioRefused refused = assertThrows(AudioRefused.class, () -> WavSource.open(file));
    return Objects.requireNonNull(refused.getMessage()).replace(file.toString(), "clip.wav");
  }

  @Test
  void readsTheSamplesThatWereWritten() throws IOException {
    Clip clip = new Clip(new short[] {0, 1, -1, Short.MAX_VALUE, Short.MIN_VALUE}, 0);
    Path file = folder.resolve("written.wav");
    WavWriter.write(clip, file);
    try (WavSource source = WavSource.open(file)) {
      assertEquals(clip, source.readAll());
      assertEquals(List.of(), source.notices());
    }
  }

  @Test
  void averagesTwoChannels() throws IOException {
    try (WavSource source =
        WavSource.open(file(wav(2, 16_000, (short) 100, (short) 300, (short) -5, (short) -7)))) {
      assertArrayEquals(new short[] {200, -6}, source.readAll().samples());
    }
  }

  @Test
  void ofTwoChannelsADeadOneIsLeftOutUntilItLives() throws IOException {
    Path file = file(wav(2, 16_000, s(100), s(0), s(-5), s(0), s(40), s(20), s(10), s(0)));
    try (WavSource source = WavSource.open(file)) {
      assertArrayEquals(new short[] {100, -5, 30, 5}, source.readAll().samples());
      assertEquals(List.of(), source.notices());
    }
    try (WavSource source = WavSource.open(file(wav(2, 16_000, s(0), s(100), s(0), s(-5))))) {
      assertArrayEquals(new short[] {100, -5}, source.readAll().samples());
      assertEquals(
          List.of(
              file
                  + ": nothing but zeros on the left channel; the other one was heard: check plug"
                  + " and cable if both should be live"),
          source.notices());
    }
  }

  @Test
  void bothChannelsDeadIsNoSound() throws IOException {
    Path file = file(wav(2, 16_000, new short[16_000]));
    assertEquals(
        "only digital silence",
        assertThrows(AudioRefused.class, () -> WavSource.requireSound(file)).found());
  }

  private static short s(int sample) {
    return (short) sample;
  }

  private static List<String> notices(Path file) throws IOException {
    try (WavSource source = WavSource.open(file)) {
      source.readAll();
      return source.notices();
    }
  }

  /** Three seconds of a tone; from the second one on it is driven so far over full scale. */
  private static short[] driven(double peak, int rateHz) {
    short[] samples = new short[3 * rateHz];
    for (int i = 0; i < samples.length; i++) {
      double size = i < rateHz ? 3_000 : 32_768 * peak;
      double value = size * Math.sin(2 * Math.PI * 440 * i / rateHz);
      samples[i] = (short) Math.max(-32_768, Math.min(32_767, Math.rint(value)));
    }
    return samples;
  }

  @ParameterizedTest
  @ValueSource(ints = {8_000, 16_000, 48_000})
  void tooLoudIsSaidWithTheSecondsInWhichItIs(int rateHz) throws IOException {
    Path file = file(wav(1, rateHz, driven(1.5, rateHz)));
    assertEquals(
        List.of(
            file
                + ": too loud: clipped in 2 of its seconds, first at 0:01; it was heard, but read"
                + " what was noted, and turn the input down or hold the microphone further away"),
        notices(file));
    assertEquals(List.of(), notices(file(wav(1, rateHz, driven(0.99, rateHz)))));
  }

  @Test
  void peaksThatOnlyTouchFullScaleAreNotTooLoud() throws IOException {
    short[] samples = driven(0.9, 16_000);
    for (int i = 0; i < samples.length; i += 100) {
      samples[i] = Short.MAX_VALUE;
    }
    assertEquals(List.of(), notices(file(wav(1, 16_000, samples))));
  }

  @Test
  void ofTwoChannelsOneThatIsTooLoudIsSaid() throws IOException {
    short[] loud = driven(1.5, 16_000);
    short[] both = new short[2 * loud.length];
    for (int i = 0; i < loud.length; i++) {
      both[2 * i] = (short) (loud[i] / 4);
      both[2 * i + 1] = loud[i];
    }
    assertTrue(
        notices(file(wav(2, 16_000, both))).get(0).contains("too loud: clipped in 2"),
        "the mean of both is below full scale, the sound is spoilt all the same");
  }

  @Test
  void skipsChunksItDoesNotKnow() throws IOException {
    byte[] plain = wav(1, 16_000, (short) 7, (short) 8);
    ByteBuffer bytes = ByteBuffer.allocate(plain.length + 12).order(ByteOrder.LITTLE_ENDIAN);
    bytes
        .put(plain, 0, 12)
        .put("LIST".getBytes(StandardCharsets.US_ASCII))
        .putInt(3)
        .put(new byte[4])
        .put(plain, 12, plain.length - 12);
    try (WavSource source = WavSource.open(file(bytes.array()))) {
      assertArrayEquals(new short[] {7, 8}, source.readAll().samples());
    }
  }

  @Test
  void readsToTheEndWhenTheRecorderNeverFilledInTheLength() throws IOException {
    for (long stated : new long[] {0, 0xFFFF_FFFFL}) {
      try (WavSource source =
          WavSource.open(file(wav(1, 1, 16_000, 16, new byte[] {1, 0, 2, 0}, stated)))) {
        assertArrayEquals(new short[] {1, 2}, source.readAll().samples());
      }
    }
  }

  @ParameterizedTest
  @ValueSource(ints = {8_000, 11_025, 22_050, 32_000, 44_100, 48_000, 96_000})
  void convertsEveryRateWithSpeechKeptAndAliasesHeldDown(int rateHz) throws IOException {
    for (int toneHz : new int[] {300, 1_000, 3_000, 3_500, 5_000, 6_000}) {
      if (toneHz < 0.45 * rateHz) {
        assertEquals(0, gainDb(rateHz, toneHz), 1.5, toneHz + " Hz at " + rateHz);
      }
    }
    for (int toneHz : new int[] {10_000, 12_000, 15_000, 20_000, 30_000}) {
      if (toneHz < 0.45 * rateHz) {
        assertTrue(
            gainDb(rateHz, toneHz) < -40,
            toneHz + " Hz at " + rateHz + ": " + gainDb(rateHz, toneHz));
      }
    }
  }

  private double gainDb(int rateHz, int toneHz) throws IOException {
    short[] tone = new short[rateHz];
    for (int i = 0; i < tone.length; i++) {
      tone[i] = (short) Math.round(16_000 * Math.sin(2 * Math.PI * toneHz * i / rateHz));
    }
    try (WavSource source = WavSource.open(file(wav(1, rateHz, tone)))) {
      short[] out = source.readAll().samples();
      assertEquals(16_000, out.length, 80);
      double sum = 0;
      for (int i = 1_600; i < 14_400; i++) {
        sum += out[i] * out[i];
      }
      return 10 * Math.log10(sum / 12_800 / (16_000.0 * 16_000 / 2));
    }
  }

  @Test
  void noSuchFile() {
    Path missing = folder.resolve("missing.wav");
    String message = assertThrows(AudioRefused.class, () -> WavSource.open(missing)).getMessage();
    assertEquals(
        missing + ": expected a WAV file, found no such file; check the name and the folder",
        message);
  }

  @Test
  void folderInsteadOfFile() {
    AudioRefused refused = assertThrows(AudioRefused.class, () -> WavSource.open(folder));
    assertEquals("a folder", refused.found());
    assertEquals("name a file in it", refused.remedy());
  }

  @Test
  void zeroBytes() throws IOException {
    assertEquals(
        "clip.wav" + WANTED + "an empty file of 0 bytes; copy or record it again",
        refusal(new byte[0]));
  }

  @Test
  void notWav() throws IOException {
    assertEquals(
        "clip.wav" + WANTED + "something that is not WAV; give a recording saved as WAV",
        refusal("six bolts off the splash guard".getBytes(StandardCharsets.UTF_8)));
  }

  @Test
  void riffOfAnotherKind() throws IOException {
    byte[] content = wav(1, 16_000, (short) 1);
    content[8] = 'A';
    assertEquals(
        "clip.wav" + WANTED + "a RIFF file of another kind; give a recording saved as WAV",
        refusal(content));
  }

  @Test
  void headerCutOffAnywhere() throws IOException {
    byte[] content = wav(1, 16_000, (short) 1);
    for (int length = 1; length < 44; length++) {
      String message = refusal(Arrays.copyOf(content, length));
      assertEquals(
          "clip.wav"
              + WANTED
              + "a header cut off after "
              + length
              + " bytes; copy or record it again",
          message);
    }
  }

  @Test
  void formatDescriptionThatCannotBe() throws IOException {
    byte[] content = wav(1, 16_000, (short) 1);
    content[16] = 3;
    assertEquals(
        "clip.wav" + WANTED + "a format description of 3 bytes; save it again as 16-bit PCM WAV",
        refusal(content));
  }

  @Test
  void samplesBeforeTheirFormat() throws IOException {
    byte[] content = wav(1, 16_000, (short) 1);
    content[12] = 'x';
    assertEquals(
        "clip.wav"
            + WANTED
            + "samples without a description of their format; save it again as 16-bit PCM WAV",
        refusal(content));
  }

  @Test
  void otherSampleKinds() throws IOException {
    String remedy = "; save it again as 16-bit PCM WAV";
    assertEquals(
        "clip.wav: expected 16-bit PCM, found 8-bit PCM" + remedy,
        refusal(wav(1, 1, 16_000, 8, new byte[4], 4)));
    assertEquals(
        "clip.wav: expected 16-bit PCM, found 24-bit PCM" + remedy,
        refusal(wav(1, 1, 16_000, 24, new byte[6], 6)));
    assertEquals(
        "clip.wav: expected 16-bit PCM, found 32-bit floating point" + remedy,
        refusal(wav(3, 1, 16_000, 32, new byte[8], 8)));
    assertEquals(
        "clip.wav: expected 16-bit PCM, found compressed sound of kind 85" + remedy,
        refusal(wav(85, 1, 16_000, 16, new byte[8], 8)));
  }

  @Test
  void tooManyChannelsAndRatesOutOfRange() throws IOException {
    assertEquals(
        "clip.wav: expected one or two channels, found 6 channels; save it again with one channel",
        refusal(wav(1, 6, 16_000, 16, new byte[12], 12)));
    assertEquals(
        "clip.wav: expected 8000 to 96000 samples per second, found 192000; save it again at 16000",
        refusal(wav(1, 1, 192_000, 16, new byte[4], 4)));
    assertEquals(
        "clip.wav: expected 8000 to 96000 samples per second, found 4000; save it again at 16000",
        refusal(wav(1, 1, 4_000, 16, new byte[4], 4)));
  }

  @Test
  void oddByteCount() throws IOException {
    assertEquals(
        "clip.wav: expected whole samples of 2 bytes, found 3 bytes of sound; copy or record it again",
        refusal(wav(1, 1, 16_000, 16, new byte[3], 3)));
  }

  @Test
  void samplesCutOffAreReadAsFarAsTheyGoWithANotice() throws IOException {
    Path file = file(wav(1, 1, 16_000, 16, new byte[] {1, 0, 2, 0, 3}, 400));
    try (WavSource source = WavSource.open(file)) {
      assertArrayEquals(new short[] {1, 2}, source.readAll().samples());
      assertEquals(
          List.of(
              file
                  + ": expected 400 bytes of sound, found 5; what is there was heard, the end is missing: copy it again if there is more"),
          source.notices());
    }
  }

  @Test
  void digitalSilenceIsNoSound() throws IOException {
    Path file = file(wav(1, 16_000, new short[16_000]));
    AudioRefused refused = assertThrows(AudioRefused.class, () -> WavSource.requireSound(file));
    assertEquals(
        file + ": expected sound, found only digital silence; is the microphone on, and not muted?",
        refused.getMessage());
    short[] lastOneAudible = new short[16_000];
    lastOneAudible[15_999] = 1;
    WavSource.requireSound(file(wav(1, 16_000, lastOneAudible)));
  }

  @Test
  void threeHoursAreReadInConstantMemory() throws IOException {
    Path file = folder.resolve("long.wav");
    int seconds = 3 * 3600;
    byte[] second = noise();
    try (OutputStream out = Files.newOutputStream(file)) {
      out.write(wav(1, 1, 16_000, 16, new byte[0], (long) seconds * second.length));
      for (int i = 0; i < seconds; i++) {
        out.write(second);
      }
    }
    long read = 0;
    long mostUsed = 0;
    System.gc();
    long before = used();
    try (WavSource source = WavSource.open(file)) {
      short[] buffer = new short[4096];
      for (int count = source.read(buffer); count >= 0; count = source.read(buffer)) {
        read += count;
        if (read % (4096L * 4096) < 4096) {
          System.gc();
          mostUsed = Math.max(mostUsed, used());
        }
      }
    }
    assertEquals(seconds * 16_000L, read);
    assertTrue(mostUsed - before < 8_000_000, "grew by " + (mostUsed - before) + " bytes");
  }

  private static byte[] noise() {
    byte[] second = new byte[32_000];
    new Random(5).nextBytes(second);
    return second;
  }

  private static long used() {
    return Runtime.getRuntime().totalMemory() - Runtime.getRuntime().freeMemory();
  }
}

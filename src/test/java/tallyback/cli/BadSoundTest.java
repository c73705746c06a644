package tallyback.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Recordings that can't be heard: one line each, and no data file comes into being. */
class BadSoundTest {

  private static final Path PLAN = Path.of("demo-data/plan.yaml");

  /** "Pump pulley off". */
  private static final Path SPOKEN = Path.of("demo-data/audio/051-095330.wav");

  private static final String WANTED = "a WAV file of 16-bit PCM, 8 to 96 kHz, one or two channels";

  @TempDir private Path folder;

  private static byte[] wav(int bits, int dataBytes, byte[] samples) {
    ByteBuffer wav = ByteBuffer.allocate(44 + samples.length).order(ByteOrder.LITTLE_ENDIAN);
    wav.put("RIFF".getBytes(StandardCharsets.US_ASCII)).putInt(36 + dataBytes);
    wav.put("WAVEfmt ".getBytes(StandardCharsets.US_ASCII)).putInt(16);
    wav.putShort((short) 1).putShort((short) 1).putInt(16_000).putInt(16_000 * bits / 8);
    wav.putShort((short) (bits / 8)).putShort((short) bits);
    wav.put("data".getBytes(StandardCharsets.US_ASCII)).putInt(dataBytes).put(samples);
    return wav.array();
  }

  private Path file(byte[] content) throws IOException {
    return Files.write(folder.resolve("talk.wav"), content);
  }

  private void assertRefused(Path file, String message) throws IOException {
    assertEquals(
        Ran.failed(2, file + ": " + message),
        Ran.command("hear", file, "--plan", PLAN, "--data", folder.resolve("new.tallyback")));
    assertNothingMade();
  }

  private void assertNothingMade() throws IOException {
    try (var files = Files.list(folder)) {
      assertEquals(List.of(), files.filter(each -> !each.toString().endsWith(".wav")).toList());
    }
  }

  @Test
  void noSuchFile() throws IOException {
    assertRefused(
        folder.resolve("none.wav"),
        "expected a WAV file, found no such file; check the name and the folder");
  }

  @Test
  void aFolder() throws IOException {
    Path inner = Files.createDirectory(folder.resolve("monday.wav"));
    assertRefused(inner, "expected a WAV file, found a folder; name a file in it");
  }

  @Test
  void notAWav() throws IOException {
    assertRefused(
        file("hello there, no sound in here at all".getBytes(StandardCharsets.UTF_8)),
        "expected " + WANTED + ", found something that is not WAV; give a recording saved as WAV");
  }

  @Test
  void eightBitWithoutTheProgramThatTurnsIt() throws IOException {
    Path file = file(wav(8, 800, new byte[800]));
    assertEquals(
        Ran.failed(
            2,
            file
                + ": expected 16-bit PCM WAV, or ffmpeg and ffprobe to take the sound out of"
                + " anything else, found no program at /nowhere/ffmpeg; install ffmpeg, or name"
                + " where it is with --ffmpeg, or save the sound as 16-bit PCM WAV"),
        Ran.command(
            "hear",
            file,
            "--plan",
            PLAN,
            "--data",
            folder.resolve("new.tallyback"),
            "--ffmpeg",
            "/nowhere/ffmpeg"));
    assertNothingMade();
  }

  @Test
  void nothingInTheFile() throws IOException {
    assertRefused(
        file(new byte[0]),
        "expected " + WANTED + ", found an empty file of 0 bytes; copy or record it again");
  }

  @Test
  void digitalSilence() throws IOException {
    assertRefused(
        file(wav(16, 64_000, new byte[64_000])),
        "expected sound, found only digital silence; is the microphone on, and not muted?");
  }

  @Test
  void aHeaderWithoutSamples() throws IOException {
    assertRefused(
        file(wav(16, 0, new byte[0])),
        "expected sound, found no samples; is the microphone on, and not muted?");
  }

  @Test
  void aHeaderCutOff() throws IOException {
    assertRefused(
        file(Arrays.copyOf(wav(16, 800, new byte[800]), 30)),
        "expected " + WANTED + ", found a header cut off after 30 bytes; copy or record it again");
  }

  @Test
  void anOddNumberOfBytes() throws IOException {
    assertRefused(
        file(wav(16, 801, new byte[801])),
        "expected whole samples of 2 bytes, found 801 bytes of sound; copy or record it again");
  }

  @Test
  void allThatIsWrongIsSaidAtOnceAndTheGoodRecordingIsNotNotedEither() throws IOException {
    Path silent = file(wav(16, 640, new byte[640]));
    Path missing = folder.resolve("none.wav");
    assertEquals(
        Ran.failed(
            2,
            silent
                + ": expected sound, found only digital silence; is the microphone on, and not muted?",
            missing + ": expected a WAV file, found no such file; check the name and the folder"),
        Ran.command(
            "hear",
            "demo-data/audio/004-090120.wav",
            silent,
            missing,
            "--plan",
            PLAN,
            "--data",
            folder.resolve("new.tallyback")));
    assertNothingMade();
  }

  @Test
  void aRecordingThatEndsTooEarlyIsHeardAsFarAsItGoesAndThatIsSaid() throws IOException {
    byte[] whole = Files.readAllBytes(Path.of("demo-data/audio/004-090120.wav"));
    ByteBuffer.wrap(whole).order(ByteOrder.LITTLE_ENDIAN).putInt(40, 2_000_000);
    Path file = file(whole);
    Ran ran = Ran.command("hear", file, "--plan", PLAN);
    assertEquals(
        Ran.lines(
            file
                + ": expected 2000000 bytes of sound, found "
                + (whole.length - 44)
                + "; what is there was heard, the end is missing: copy it again if there is more"),
        ran.err());
    assertEquals(2, ran.code());
    assertEquals(1, ran.outLines().size(), ran.out());
  }

  @Test
  void tooLoudIsHeardAndSaidToBe() throws IOException {
    short[] samples = samples(SPOKEN);
    for (int i = 0; i < samples.length; i++) {
      samples[i] = (short) Math.max(-32_768, Math.min(32_767, 5 * samples[i]));
    }
    Path file = file(wav(16, 2 * samples.length, bytes(samples)));
    Ran ran = Ran.command("hear", file, "--plan", PLAN);
    assertEquals(0, ran.code());
    assertEquals(1, ran.outLines().size(), ran.out());
    assertEquals(
        file
            + ": too loud: clipped in 2 of its seconds, first at 0:00; it was heard, but read what"
            + " was noted, and turn the input down or hold the microphone further away",
        ran.err().lines().findFirst().orElseThrow());
    assertEquals("asked", status(file));
  }

  @Test
  void ofADeadChannelTheOtherIsHeardAsIfItWereAlone() throws IOException {
    short[] samples = samples(SPOKEN);
    short[] both = new short[2 * samples.length];
    for (int i = 0; i < samples.length; i++) {
      both[2 * i + 1] = samples[i];
    }
    byte[] stereo = wav(16, 2 * both.length, bytes(both));
    ByteBuffer header = ByteBuffer.wrap(stereo).order(ByteOrder.LITTLE_ENDIAN);
    header.putShort(22, (short) 2).putInt(28, 64_000).putShort(32, (short) 4);
    Path file = file(stereo);
    Ran ran = Ran.command("hear", file, "--plan", PLAN);
    assertEquals(Ran.command("hear", SPOKEN, "--plan", PLAN).out(), ran.out());
    assertEquals(
        Ran.lines(
            file
                + ": nothing but zeros on the left channel; the other one was heard: check plug and"
                + " cable if both should be live"),
        ran.err());
    assertEquals(0, ran.code());
  }

  @Test
  void whereAPieceIsMissingInMidWordItIsAskedEvenIfTheRestIsClear() throws IOException {
    assertEquals("noted", status(SPOKEN));
    short[] samples = samples(SPOKEN);
    int loudest = 0;
    for (int i = 0; i < samples.length; i++) {
      loudest = Math.abs(samples[i]) > Math.abs(samples[loudest]) ? i : loudest;
    }
    Arrays.fill(samples, loudest + 1, loudest + 1 + 1_600, (short) 0);
    assertTrue(
        List.of("asked", "rejected")
            .contains(status(file(wav(16, 2 * samples.length, bytes(samples))))));
  }

  private static String status(Path file) {
    String line = Ran.command("hear", file, "--plan", PLAN, "--json").out();
    return line.replaceFirst("(?s).*?\"status\":\"([a-z]+)\".*", "$1");
  }

  private static short[] samples(Path file) throws IOException {
    byte[] whole = Files.readAllBytes(file);
    short[] samples = new short[(whole.length - 44) / 2];
    ByteBuffer.wrap(whole, 44, 2 * samples.length)
        .order(ByteOrder.LITTLE_ENDIAN)
        .asShortBuffer()
        .get(samples);
    return samples;
  }

  private static byte[] bytes(short[] samples) {
    ByteBuffer bytes = ByteBuffer.allocate(2 * samples.length).order(ByteOrder.LITTLE_ENDIAN);
    bytes.asShortBuffer().put(samples);
    return bytes.array();
  }

  @Test
  void noiseWithoutSpeechIsSaidToBeNone() throws IOException {
    byte[] hum = new byte[64_000];
    for (int i = 0; i < hum.length; i += 2) {
      hum[i] = (byte) (i % 3);
    }
    Path file = file(wav(16, hum.length, hum));
    assertEquals(
        new Ran(0, "", Ran.lines(file + ": no speech in it; nothing was noted of it")),
        Ran.command("hear", file, "--plan", PLAN));
  }

  @Test
  void aTimeThatIsNoneMakesNoDataFile() throws IOException {
    assertEquals(
        Ran.failed(
            2,
            "--at: expected a time such as 2026-03-02T09:15:00+01:00, found noon; give date, time"
                + " and offset"),
        Ran.command(
            "hear",
            "demo-data/audio/004-090120.wav",
            "--at",
            "noon",
            "--plan",
            PLAN,
            "--data",
            folder.resolve("new.tallyback")));
    assertNothingMade();
  }

  @Test
  void anAttentionWordNobodyCanPronounceMakesNoDataFile() throws IOException {
    assertEquals(
        Ran.failed(
            2,
            "--attention zzyzx: expected a word with a known pronunciation; choose another, or add"
                + " it under pronunciations in the plan"),
        Ran.command(
            "hear",
            "demo-data/audio/004-090120.wav",
            "--attention",
            "zzyzx",
            "--plan",
            PLAN,
            "--data",
            folder.resolve("new.tallyback")));
    assertNothingMade();
  }
}

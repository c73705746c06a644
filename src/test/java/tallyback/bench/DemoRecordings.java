package tallyback.bench;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import javax.sound.sampled.AudioFileFormat;
import javax.sound.sampled.AudioFormat;
import javax.sound.sampled.AudioInputStream;
import javax.sound.sampled.AudioSystem;
import javax.sound.sampled.UnsupportedAudioFileException;

/**
 * Makes the recordings of the demo job anew from its script: each line spoken by Debian's {@code
 * flite}, some with workshop noise mixed in. The manifest it writes beside them tells when each
 * clip was said, never what was said.
 *
 * <p>Command: {@code mvn -q -Pfigures test-compile exec:java
 * -Dexec.mainClass=tallyback.bench.DemoRecordings}; needs {@code flite} on the path.
 */
public final class DemoRecordings {

  private static final int RATE_HZ = 16_000;
  private static final int LEAD_SAMPLES = RATE_HZ * 30 / 100;
  private static final Path SCRIPT = Path.of("src/test/resources/demo/script.tsv");
  private static final Path NOISES = Path.of("src/test/resources/audio/noise");
  private static final Path TARGET = Path.of("demo-data/audio");
  private static final Path KNOWN = Path.of("demo-data/known-speech.tsv");

  private DemoRecordings() {}

  /** One line of the script. */
  record Line(int number, String at, String voice, String noise, String snrDb, String words) {

    String fileName() {
      return String.format(Locale.ROOT, "%03d-%s.wav", number, at.replace(":", ""));
    }
  }

  /** Speaks the whole script. */
  public static void main(String[] args) throws Exception {
    List<Line> lines = read();
    Files.createDirectories(TARGET);
    try (var old = Files.list(TARGET)) {
      for (Path wav : old.filter(path -> path.toString().endsWith(".wav")).toList()) {
        Files.delete(wav);
      }
    }
    for (Line line : lines) {
      short[] speech = speak(line);
      write(TARGET.resolve(line.fileName()), inRoom(line, speech));
    }
    writeManifest(lines);
    writeKnown(lines);
    System.out.println(lines.size() + " recordings in " + TARGET);
  }

  /**
   * What is said in the recordings without noise of two of the voices: noises are learned from
   * them. The third voice is left out, for the bench of hearing reports on it.
   */
  static List<String> known(List<Line> lines) {
    List<String> known = new ArrayList<>();
    known.add(
        "# Recordings without noise whose words are known: file, words. Noises are learned from them.");
    for (Line line : lines) {
      boolean quiet = line.noise().equals("-") && !line.words().startsWith("file:");
      if (quiet && !line.voice().equals("slt")) {
        known.add(line.fileName() + "\t" + line.words());
      }
    }
    return known;
  }

  private static void writeKnown(List<Line> lines) throws IOException {
    Files.write(KNOWN, known(lines), StandardCharsets.UTF_8);
  }

  static List<Line> read() throws IOException {
    List<Line> lines = new ArrayList<>();
    for (String row : Files.readAllLines(SCRIPT, StandardCharsets.UTF_8)) {
      if (!row.isBlank() && !row.startsWith("#")) {
        String[] field = row.split("\t", -1);
        lines.add(
            new Line(Integer.parseInt(field[0]), field[1], field[2], field[3], field[4], field[5]));
      }
    }
    return lines;
  }

  private static short[] speak(Line line)
      throws IOException, InterruptedException, UnsupportedAudioFileException {
    if (line.words().startsWith("file:")) {
      return samples(NOISES.resolveSibling("talk").resolve(line.words().substring(5)));
    }
    Path spoken = Files.createTempFile("spoken", ".wav");
    try {
      Process flite =
          new ProcessBuilder(
                  "flite", "-voice", line.voice(), "-t", line.words(), "-o", spoken.toString())
              .inheritIO()
              .start();
      if (flite.waitFor() != 0) {
        throw new IOException("flite failed on line " + line.number());
      }
      return samples(spoken);
    } finally {
      Files.delete(spoken);
    }
  }

  private static short[] samples(Path wav) throws IOException, UnsupportedAudioFileException {
    try (AudioInputStream in = AudioSystem.getAudioInputStream(wav.toFile())) {
      if (in.getFormat().getSampleRate() != RATE_HZ || in.getFormat().getChannels() != 1) {
        throw new IOException(wav + " is not 16 kHz mono");
      }
      short[] samples = new short[(int) in.getFrameLength()];
      ByteBuffer.wrap(in.readAllBytes())
          .order(ByteOrder.LITTLE_ENDIAN)
          .asShortBuffer()
          .get(samples, 0, samples.length);
      return samples;
    }
  }

  /**
   * Speech with a lead and a tail of room, a faint hiss as any microphone has, and the noise of the
   * line.
   */
  private static short[] inRoom(Line line, short[] speech)
      throws IOException, UnsupportedAudioFileException {
    short[] noise =
        line.noise().equals("-") ? new short[0] : samples(NOISES.resolve(line.noise() + ".wav"));
    Random hiss = new Random(line.number());
    int length = speech.length + 2 * LEAD_SAMPLES;
    int from = noise.length > length ? hiss.nextInt(noise.length - length) : 0;
    double gain = noise.length == 0 ? 0 : gain(speech, noise, Double.parseDouble(line.snrDb()));
    short[] room = new short[length];
    for (int i = 0; i < length; i++) {
      int at = i - LEAD_SAMPLES;
      double sum = hiss.nextGaussian() * 6;
      sum += at >= 0 && at < speech.length ? speech[at] * 0.6 : 0;
      sum += noise.length == 0 ? 0 : gain * noise[(from + i) % noise.length];
      room[i] = (short) Math.max(Short.MIN_VALUE, Math.min(Short.MAX_VALUE, Math.round(sum)));
    }
    return room;
  }

  private static double gain(short[] speech, short[] noise, double snrDb) {
    return 0.6 * rms(speech) / (rms(noise) * Math.pow(10, snrDb / 20));
  }

  private static double rms(short[] samples) {
    double sum = 0;
    for (short sample : samples) {
      sum += (double) sample * sample;
    }
    return Math.sqrt(sum / samples.length);
  }

  private static void write(Path wav, short[] samples) throws IOException {
    ByteBuffer bytes = ByteBuffer.allocate(samples.length * 2).order(ByteOrder.LITTLE_ENDIAN);
    bytes.asShortBuffer().put(samples);
    AudioFormat format = new AudioFormat(RATE_HZ, 16, 1, true, false);
    try (AudioInputStream in =
        new AudioInputStream(new ByteArrayInputStream(bytes.array()), format, samples.length)) {
      AudioSystem.write(in, AudioFileFormat.Type.WAVE, wav.toFile());
    }
  }

  private static void writeManifest(List<Line> lines) throws IOException {
    ObjectMapper json = new ObjectMapper().enable(SerializationFeature.INDENT_OUTPUT);
    ObjectNode manifest = json.createObjectNode();
    manifest.put("schema", 1);
    manifest.put("zone", "Europe/London");
    ArrayNode clips = manifest.putArray("clips");
    for (Line line : lines) {
      ObjectNode clip = clips.addObject();
      clip.put("file", "audio/" + line.fileName());
      clip.put("at", "2026-03-02T" + line.at() + "+00:00");
      clip.put("voice", line.voice());
      if (!line.noise().equals("-")) {
        clip.put("noise", line.noise());
        clip.put("snrDb", line.snrDb());
      }
    }
    Files.writeString(Path.of("demo-data/manifest.json"), json.writeValueAsString(manifest) + "\n");
  }
}

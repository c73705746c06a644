package tallyback.audio;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import javax.sound.sampled.AudioFormat;
import javax.sound.sampled.AudioInputStream;
import javax.sound.sampled.AudioSystem;
import javax.sound.sampled.DataLine;
import javax.sound.sampled.LineUnavailableException;
import javax.sound.sampled.Mixer;
import javax.sound.sampled.TargetDataLine;
import org.jspecify.annotations.Nullable;

/**
 * A microphone of the machine, by {@code javax.sound.sampled}. What a device can't give at 16 kHz
 * is taken at 48 or 44.1 kHz and converted by the JDK.
 *
 * <p>Thread rule as in {@link SampleSource}; closing frees the device.
 */
public final class Microphone implements SampleSource {

  private static final AudioFormat WANTED =
      new AudioFormat(Clip.SAMPLE_RATE_HZ, Short.SIZE, 1, true, false);

  /** In the order in which they are tried. */
  private static final List<AudioFormat> OFFERED =
      List.of(
          WANTED,
          new AudioFormat(48_000, Short.SIZE, 1, true, false),
          new AudioFormat(48_000, Short.SIZE, 2, true, false),
          new AudioFormat(44_100, Short.SIZE, 1, true, false),
          new AudioFormat(44_100, Short.SIZE, 2, true, false));

  /** Half a second: a busy machine loses nothing. */
  private static final double BUFFERED_SECONDS = 0.5;

  private final TargetDataLine line;
  private final AudioInputStream samples;
  private final String name;
  private byte[] block = new byte[0];

  private Microphone(String name, TargetDataLine line, AudioInputStream samples) {
    this.name = name;
    this.line = line;
    this.samples = samples;
  }

  /** The names of the devices that can record, as the system calls them. */
  public static List<String> names() {
    return devices().stream().map(Mixer.Info::getName).toList();
  }

  private static List<Mixer.Info> devices() {
    List<Mixer.Info> devices = new ArrayList<>();
    for (Mixer.Info info : AudioSystem.getMixerInfo()) {
      Mixer mixer = AudioSystem.getMixer(info);
      if (OFFERED.stream().anyMatch(format -> mixer.isLineSupported(lineOf(format)))) {
        devices.add(info);
      }
    }
    return devices;
  }

  private static DataLine.Info lineOf(AudioFormat format) {
    return new DataLine.Info(TargetDataLine.class, format);
  }

  /**
   * Opens a microphone and begins to record.
   *
   * @param wanted part of its name, capitals or not; null for the first there is
   * @throws AudioRefused if there is none of that name, or another program holds it
   */
  public static Microphone open(@Nullable String wanted) throws AudioRefused {
    List<Mixer.Info> devices = devices();
    Mixer.Info chosen =
        devices.stream()
            .filter(device -> wanted == null || isNamed(device, wanted))
            .findFirst()
            .orElseThrow(() -> missing(wanted, devices));
    Mixer mixer = AudioSystem.getMixer(chosen);
    AudioFormat format =
        OFFERED.stream()
            .filter(each -> mixer.isLineSupported(lineOf(each)))
            .findFirst()
            .orElseThrow(() -> missing(wanted, devices));
    try {
      TargetDataLine line = (TargetDataLine) mixer.getLine(lineOf(format));
      int frames = (int) (BUFFERED_SECONDS * format.getFrameRate());
      line.open(format, frames * format.getFrameSize());
      line.start();
      AudioInputStream recorded = new AudioInputStream(line);
      return new Microphone(
          chosen.getName(),
          line,
          format.equals(WANTED) ? recorded : AudioSystem.getAudioInputStream(WANTED, recorded));
    } catch (LineUnavailableException e) {
      throw new AudioRefused(
          "microphone " + chosen.getName(),
          "a device that is free",
          String.valueOf(e.getMessage()),
          "close the program that holds it, or name another with --microphone");
    }
  }

  private static boolean isNamed(Mixer.Info device, String wanted) {
    return device.getName().toLowerCase(Locale.ROOT).contains(wanted.toLowerCase(Locale.ROOT));
  }

  private static AudioRefused missing(@Nullable String wanted, List<Mixer.Info> devices) {
    if (devices.isEmpty()) {
      return new AudioRefused(
          "microphone",
          "a device that records",
          "none",
          "plug one in and see that the system shows it");
    }
    return new AudioRefused(
        "--microphone " + wanted,
        "part of one of these names: "
            + String.join(", ", devices.stream().map(Mixer.Info::getName).toList()),
        "no such device",
        "name one of them");
  }

  /** Its name. */
  public String name() {
    return name;
  }

  @Override
  public int read(short[] buffer) throws IOException {
    if (block.length < buffer.length * Short.BYTES) {
      block = new byte[buffer.length * Short.BYTES];
    }
    int bytes = samples.read(block, 0, buffer.length * Short.BYTES);
    int count = Math.max(0, bytes) / Short.BYTES;
    for (int i = 0; i < count; i++) {
      buffer[i] = (short) ((block[2 * i] & 0xFF) | (block[2 * i + 1] << 8));
    }
    Arrays.fill(buffer, count, buffer.length, (short) 0);
    return count == 0 ? -1 : count;
  }

  @Override
  public void close() {
    line.close();
  }
}

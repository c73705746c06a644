package tallyback.audio;

import java.io.IOException;
import java.io.InputStream;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.function.Consumer;
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
 * is taken at 48 or 44.1 kHz, or at 8 kHz when it has nothing better, and converted by the JDK.
 * When it is unplugged it is waited for until it is back: no other is taken in its place.
 *
 * <p>Thread rule as in {@link SampleSource}; closing frees the device.
 */
public final class Microphone implements SampleSource {

  private static final AudioFormat WANTED = format(Clip.SAMPLE_RATE_HZ, 1);

  /** In the order in which they are tried. The last is a telephone headset. */
  private static final List<AudioFormat> OFFERED =
      List.of(
          WANTED,
          format(48_000, 1),
          format(48_000, 2),
          format(44_100, 1),
          format(44_100, 2),
          format(Clip.SAMPLE_RATE_HZ, 2),
          format(8_000, 1));

  /** Half a second: a busy machine loses nothing. */
  private static final double BUFFERED_SECONDS = 0.5;

  /** A device that has given nothing for so long is gone, though the system may not say so. */
  private static final Duration GONE = Duration.ofSeconds(3);

  private static final int LOOK_MS = 10;
  private static final int LOOK_FOR_IT_MS = 1000;

  private final Mixer mixer;
  private final String name;
  private final Consumer<Change> told;
  private volatile @Nullable Opened opened;
  private volatile boolean closed;
  private boolean away;
  private boolean broken;
  private byte[] block = new byte[0];

  /** What has become of it. */
  public enum Change {
    /** It was unplugged, or gives no sound any more. */
    GONE,
    /** It is there again. */
    BACK
  }

  private record Opened(TargetDataLine line, AudioInputStream samples) {}

  private Microphone(Mixer mixer, String name, Consumer<Change> told, Opened opened) {
    this.mixer = mixer;
    this.name = name;
    this.told = told;
    this.opened = opened;
  }

  private static AudioFormat format(float hz, int channels) {
    return new AudioFormat(hz, Short.SIZE, channels, true, false);
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
   * @param told when it goes and comes back, on the thread that reads
   * @throws AudioRefused if there is none of that name, or another program holds it
   */
  public static Microphone open(@Nullable String wanted, Consumer<Change> told)
      throws AudioRefused {
    List<Mixer.Info> devices = devices();
    Mixer.Info chosen =
        devices.stream()
            .filter(device -> wanted == null || isNamed(device, wanted))
            .findFirst()
            .orElseThrow(() -> missing(wanted, devices));
    Mixer mixer = AudioSystem.getMixer(chosen);
    try {
      return new Microphone(mixer, chosen.getName(), told, opened(mixer));
    } catch (LineUnavailableException e) {
      throw new AudioRefused(
          "microphone " + chosen.getName(),
          "a device that records",
          String.valueOf(e.getMessage()),
          "see that it is plugged in and that no other program holds it, or name another with"
              + " --microphone");
    }
  }

  /** A device may say that it takes a format and then refuse it: the next is tried. */
  private static Opened opened(Mixer mixer) throws LineUnavailableException {
    LineUnavailableException refused = new LineUnavailableException("no format it could give");
    for (AudioFormat format : OFFERED) {
      if (mixer.isLineSupported(lineOf(format))) {
        try {
          return opened(mixer, format);
        } catch (LineUnavailableException e) {
          refused = e;
        }
      }
    }
    throw refused;
  }

  private static Opened opened(Mixer mixer, AudioFormat format) throws LineUnavailableException {
    TargetDataLine line = (TargetDataLine) mixer.getLine(lineOf(format));
    int frames = (int) (BUFFERED_SECONDS * format.getFrameRate());
    line.open(format, frames * format.getFrameSize());
    line.start();
    AudioInputStream recorded =
        new AudioInputStream(new Recorded(line), format, AudioSystem.NOT_SPECIFIED);
    return new Opened(
        line, format.equals(WANTED) ? recorded : AudioSystem.getAudioInputStream(WANTED, recorded));
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

  /**
   * The next samples. When the device goes this gives one silent sample, at which {@link #isBroken}
   * holds, so that what was being said has an end; then it waits.
   */
  @Override
  public int read(short[] buffer) throws IOException {
    while (!closed) {
      Opened now = opened;
      if (now == null) {
        lookForIt();
        continue;
      }
      int count = read(now, buffer);
      if (count > 0) {
        broken = away;
        away = false;
        return count;
      }
      if (!closed) {
        now.line().close();
        opened = null;
        away = true;
        told.accept(Change.GONE);
        broken = true;
        buffer[0] = 0;
        return 1;
      }
    }
    return -1;
  }

  /** How many samples came, or none when nothing comes any more. */
  private int read(Opened from, short[] buffer) {
    if (block.length < buffer.length * Short.BYTES) {
      block = new byte[buffer.length * Short.BYTES];
    }
    int bytes;
    try {
      bytes = from.samples().read(block, 0, buffer.length * Short.BYTES);
    } catch (IOException e) {
      return 0;
    }
    int count = Math.max(0, bytes) / Short.BYTES;
    for (int i = 0; i < count; i++) {
      buffer[i] = (short) ((block[2 * i] & 0xFF) | (block[2 * i + 1] << 8));
    }
    Arrays.fill(buffer, count, buffer.length, (short) 0);
    return count;
  }

  private void lookForIt() throws IOException {
    pause(LOOK_FOR_IT_MS);
    try {
      opened = closed ? null : opened(mixer);
    } catch (LineUnavailableException notYet) {
      return;
    }
    if (!closed) {
      told.accept(Change.BACK);
    }
  }

  /** Whoever waits for it to come back need not any longer; any thread. */
  public void waitNoLonger() {
    closed = closed || opened == null;
  }

  @Override
  public boolean isBroken() {
    return broken;
  }

  @Override
  public void close() {
    closed = true;
    Opened now = opened;
    if (now != null) {
      now.line().close();
    }
  }

  private static void pause(int ms) throws IOException {
    try {
      Thread.sleep(ms);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IOException("interrupted", e);
    }
  }

  /**
   * What a line has recorded. Reading from the line itself waits for ever on a device that was
   * unplugged, or gives nothing at once.
   */
  private static final class Recorded extends InputStream {

    private final TargetDataLine line;

    Recorded(TargetDataLine line) {
      this.line = line;
    }

    @Override
    public int read() throws IOException {
      throw new IOException("samples are read, no single bytes");
    }

    @Override
    public int read(byte[] into, int from, int most) throws IOException {
      int frame = line.getFormat().getFrameSize();
      long until = System.nanoTime() + GONE.toNanos();
      while (line.available() < frame) {
        if (!line.isOpen() || System.nanoTime() > until) {
          return -1;
        }
        pause(LOOK_MS);
      }
      int count = Math.min(most, line.available());
      int got = line.read(into, from, count - count % frame);
      return got > 0 ? got : -1;
    }
  }
}

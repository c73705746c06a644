package tallyback.audio;

import java.io.BufferedInputStream;
import java.io.DataInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import javax.sound.sampled.AudioFormat;
import javax.sound.sampled.AudioInputStream;
import javax.sound.sampled.AudioSystem;

/**
 * A WAV file as a stream of 16 kHz mono samples, in constant memory however long it is.
 *
 * <p>Other rates are converted by the band-limited interpolator that comes with the JDK, in steps
 * that each keep speech up to 6 kHz within 1.5 dB and hold down by at least 40 dB what would fold
 * back into it. Two channels are averaged; of one that holds nothing but zeros nothing is taken.
 *
 * <p>Thread rule: one thread. {@link #close} closes the file.
 */
public final class WavSource implements SampleSource {

  /** On the way down from high rates: one big step would cost the upper end of speech. */
  private static final float HALF_WAY_HZ = 32_000;

  private static final int BLOCK_SAMPLES = 4096;
  private static final byte[] SILENCE = new byte[BLOCK_SAMPLES * Short.BYTES];

  private final String file;
  private final WavHeader header;
  private final PcmBody body;
  private final InputStream samples;
  private final byte[] block = new byte[BLOCK_SAMPLES * Short.BYTES];

  private WavSource(String file, WavHeader header, InputStream in) {
    this.file = file;
    this.header = header;
    this.body = new PcmBody(in, header);
    this.samples = converted(body, header.rateHz());
  }

  /**
   * Opens a file.
   *
   * @param path the file
   * @return its samples
   * @throws AudioRefused if there is no such file, or it is not 16-bit PCM WAV, 8 to 96 kHz, one or
   *     two channels
   * @throws IOException if the disk fails
   */
  public static WavSource open(Path path) throws IOException {
    return open(path, path.toString());
  }

  /**
   * The same for a file that the user knows by another name.
   *
   * @param path the file
   * @param file how it is called in messages
   * @return its samples
   * @throws AudioRefused as {@link #open(Path)} does
   * @throws IOException if the disk fails
   */
  public static WavSource open(Path path, String file) throws IOException {
    if (Files.isDirectory(path)) {
      throw new AudioRefused(file, "a WAV file", "a folder", "name a file in it");
    }
    InputStream in = openFile(path, file);
    try {
      BufferedInputStream buffered = new BufferedInputStream(in, 1 << 16);
      WavHeader header = WavHeader.read(new DataInputStream(buffered), file, Files.size(path));
      return new WavSource(file, header, buffered);
    } catch (IOException e) {
      in.close();
      throw e;
    }
  }

  /**
   * Whether a file is a WAV file of another kind than is heard here, which a converter may turn:
   * more bits, more channels, compressed.
   *
   * @param path the file
   * @throws IOException if the disk fails
   */
  public static boolean isOfAnotherKind(Path path) throws IOException {
    try {
      open(path).close();
      return false;
    } catch (AudioRefused e) {
      return e.isOtherKind();
    }
  }

  /**
   * Looks whether a file can be heard at all, without changing anything; reads it only up to its
   * first sample that isn't nought.
   *
   * @param path the file
   * @throws AudioRefused as {@link #open(Path)} does, and if nothing but digital silence is in it
   * @throws IOException if the disk fails
   */
  public static void requireSound(Path path) throws IOException {
    requireSound(path, path.toString());
  }

  /**
   * The same for a file that the user knows by another name.
   *
   * @param path the file
   * @param file how it is called in messages
   * @throws AudioRefused as {@link #requireSound(Path)} does
   * @throws IOException if the disk fails
   */
  public static void requireSound(Path path, String file) throws IOException {
    try (WavSource source = open(path, file)) {
      long bytesRead = 0;
      for (int count = source.body.read(source.block, 0, source.block.length);
          count > 0;
          count = source.body.read(source.block, 0, source.block.length)) {
        if (!isSilent(source.block, count)) {
          return;
        }
        bytesRead += count;
      }
      throw new AudioRefused(
          source.file,
          "sound",
          bytesRead == 0 ? "no samples" : "only digital silence",
          "is the microphone on, and not muted?");
    }
  }

  private static boolean isSilent(byte[] bytes, int count) {
    return Arrays.mismatch(bytes, 0, count, SILENCE, 0, count) < 0;
  }

  private static InputStream openFile(Path path, String file) throws IOException {
    try {
      return Files.newInputStream(path);
    } catch (NoSuchFileException e) {
      throw new AudioRefused(file, "a WAV file", "no such file", "check the name and the folder");
    } catch (AccessDeniedException e) {
      throw new AudioRefused(
          file, "a file that may be read", "access denied", "change its permissions");
    }
  }

  private static InputStream converted(PcmBody body, int rateHz) {
    if (rateHz == Clip.SAMPLE_RATE_HZ) {
      return body;
    }
    AudioInputStream sound = new AudioInputStream(body, pcm(rateHz), AudioSystem.NOT_SPECIFIED);
    if (rateHz > HALF_WAY_HZ) {
      sound = AudioSystem.getAudioInputStream(pcm(HALF_WAY_HZ), sound);
    }
    return AudioSystem.getAudioInputStream(pcm(Clip.SAMPLE_RATE_HZ), sound);
  }

  private static AudioFormat pcm(float rateHz) {
    return new AudioFormat(
        AudioFormat.Encoding.PCM_SIGNED,
        rateHz,
        Short.SIZE,
        1,
        Short.BYTES,
        rateHz,
        false,
        Map.of("interpolation", "sinc"));
  }

  /**
   * The next samples.
   *
   * @param buffer filled from its beginning
   * @return how many samples were put in, or -1 at the end
   * @throws IOException if the disk fails
   */
  @Override
  public int read(short[] buffer) throws IOException {
    int wanted = Math.min(buffer.length, BLOCK_SAMPLES);
    int bytes = samples.readNBytes(block, 0, wanted * Short.BYTES);
    int count = bytes / Short.BYTES;
    if (count == 0) {
      return -1;
    }
    for (int i = 0; i < count; i++) {
      buffer[i] = (short) ((block[2 * i] & 0xFF) | (block[2 * i + 1] << 8));
    }
    return count;
  }

  /**
   * The whole file as one clip; for short ones.
   *
   * @return all samples that were not read yet
   * @throws IOException if the disk fails
   */
  public Clip readAll() throws IOException {
    short[] all = new short[BLOCK_SAMPLES];
    int length = 0;
    short[] buffer = new short[BLOCK_SAMPLES];
    for (int count = read(buffer); count >= 0; count = read(buffer)) {
      if (length + count > all.length) {
        all = Arrays.copyOf(all, Math.max(2 * all.length, length + count));
      }
      System.arraycopy(buffer, 0, all, length, count);
      length += count;
    }
    return new Clip(Arrays.copyOf(all, length), 0);
  }

  /**
   * What the user should know about a file that was read to its end although something is wrong
   * with it: its end is missing, the microphone was overdriven, or one of two channels is dead.
   *
   * @return one line each, with the remedy; usually none
   */
  public List<String> notices() {
    List<String> notices = new ArrayList<>();
    if (!isWhole()) {
      notices.add(
          file
              + ": expected "
              + header.dataBytes()
              + " bytes of sound, found "
              + (header.dataBytes() - body.missingBytes())
              + "; what is there was heard, the end is missing: copy it again if there is more");
    }
    if (body.overdriven().seconds() > 0) {
      notices.add(file + tooLoud(body.overdriven()));
    }
    if (!body.deadChannel().isEmpty()) {
      notices.add(
          file
              + ": nothing but zeros on the "
              + body.deadChannel()
              + " channel; the other one was heard: check plug and cable if both should be live");
    }
    return notices;
  }

  private static String tooLoud(FullScale overdriven) {
    return String.format(
        Locale.ROOT,
        ": too loud: clipped in %d of its seconds, first at %d:%02d; it was heard, but read what"
            + " was noted, and turn the input down or hold the microphone further away",
        overdriven.seconds(),
        overdriven.firstSecond() / 60,
        overdriven.firstSecond() % 60);
  }

  /**
   * Whether the file has all the sound that its header promises.
   *
   * @return after the end: whether nothing is missing
   */
  public boolean isWhole() {
    return body.missingBytes() == 0;
  }

  /** How the file was recorded: samples per second of each channel. */
  int rateHz() {
    return header.rateHz();
  }

  @Override
  public void close() throws IOException {
    body.close();
  }
}

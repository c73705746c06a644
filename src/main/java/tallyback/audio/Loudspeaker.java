package tallyback.audio;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.function.BooleanSupplier;
import javax.sound.sampled.AudioFormat;
import javax.sound.sampled.AudioSystem;
import javax.sound.sampled.LineUnavailableException;
import javax.sound.sampled.SourceDataLine;

/**
 * The machine's own loudspeaker or headset, by {@code javax.sound.sampled}.
 *
 * <p>Thread rule as in {@link SoundOut}; closing frees the device.
 */
public final class Loudspeaker implements SoundOut {

  private static final AudioFormat FORMAT =
      new AudioFormat(Clip.SAMPLE_RATE_HZ, Short.SIZE, 1, true, false);

  /** Sound is handed over in pieces so short that stopping is heard at once. */
  private static final int PIECE = Clip.SAMPLE_RATE_HZ / 20;

  private final SourceDataLine line;
  private volatile boolean closed;

  private Loudspeaker(SourceDataLine line) {
    this.line = line;
  }

  /**
   * Opens the system's own choice of device.
   *
   * @throws AudioRefused if there is none
   */
  public static Loudspeaker open() throws AudioRefused {
    try {
      SourceDataLine line = AudioSystem.getSourceDataLine(FORMAT);
      line.open(FORMAT, 4 * PIECE * Short.BYTES);
      line.start();
      return new Loudspeaker(line);
    } catch (LineUnavailableException | IllegalArgumentException e) {
      throw new AudioRefused(
          "loudspeaker",
          "a device that plays",
          String.valueOf(e.getMessage()),
          "plug one in, or use --silent");
    }
  }

  @Override
  public boolean play(Clip clip, BooleanSupplier wanted) {
    boolean stopped = closed || !wanted.getAsBoolean();
    for (int from = 0; from < clip.length() && !stopped; from += PIECE) {
      int count = Math.min(PIECE, clip.length() - from);
      ByteBuffer bytes = ByteBuffer.allocate(count * Short.BYTES).order(ByteOrder.LITTLE_ENDIAN);
      for (int i = 0; i < count; i++) {
        bytes.putShort(clip.sample(from + i));
      }
      line.write(bytes.array(), 0, bytes.capacity());
      stopped = closed || !wanted.getAsBoolean();
    }
    if (stopped) {
      line.flush();
    } else {
      line.drain();
    }
    return !stopped;
  }

  @Override
  public void close() {
    closed = true;
    line.close();
  }
}

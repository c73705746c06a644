package tallyback.web;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.UUID;
import tallyback.audio.Clip;

/**
 * A piece of sound from a page. All numbers are little endian:
 *
 * <pre>
 * byte  0  4  magic, "TBIN"
 *       4  1  version, 1
 *       5  1  flags: 1 to be listened to, 2 may hold what is said aloud, 4 needs no attention word
 *       6  2  how many samples, 1 to 8000
 *       8 16  stream, a UUID, most significant byte first
 *      24  8  first sample, counted from the beginning of the stream
 *      32  8  page's time of the first sample, ms since 1970 as a double
 *      40     samples, 16 kHz mono, 16-bit linear PCM
 * </pre>
 *
 * @param stream which recording
 * @param first which sample of it is the first
 * @param pageMs when the first was recorded, by the page's clock
 * @param held whether it is to be listened to
 * @param playing whether it may hold what is said aloud
 * @param free whether what is said needs no attention word
 * @param samples the samples
 */
@SuppressWarnings("ArrayRecordComponent") // handed on at once, never compared
record SoundFrame(
    UUID stream,
    long first,
    double pageMs,
    boolean held,
    boolean playing,
    boolean free,
    short[] samples) {

  /** Bytes before the samples. */
  static final int HEADER = 40;

  /** Half a second. */
  static final int MOST_SAMPLES = Clip.SAMPLE_RATE_HZ / 2;

  /** The largest frame in bytes. */
  static final int MOST_BYTES = HEADER + MOST_SAMPLES * Short.BYTES;

  private static final int MAGIC = 0x4E494254;
  private static final int VERSION = 1;
  private static final int HELD = 1;
  private static final int PLAYING = 2;
  private static final int FREE = 4;

  /** Sound of some hundred years: a number beyond it is no place in a recording. */
  private static final long LAST_SAMPLE = 1L << 46;

  /**
   * Reads a frame.
   *
   * @throws BadMessage if it is none
   */
  static SoundFrame read(ByteBuffer data) {
    ByteBuffer bytes = data.slice().order(ByteOrder.LITTLE_ENDIAN);
    int length = bytes.remaining();
    require(length > HEADER && bytes.getInt() == MAGIC, "sound that begins with TBIN");
    int version = bytes.get();
    require(version == VERSION, "sound frames of version 1; load the page anew");
    int flags = bytes.get();
    int count = Short.toUnsignedInt(bytes.getShort());
    require(
        count >= 1 && count <= MOST_SAMPLES && length == HEADER + count * Short.BYTES,
        "1 to 8000 samples and as many as announced");
    UUID stream = uuid(bytes);
    long first = bytes.getLong();
    double pageMs = bytes.getDouble();
    require(first >= 0 && first < LAST_SAMPLE, "a first sample from 0 on");
    require(pageMs > 0 && pageMs < 1e14, "a time in ms since 1970");
    short[] samples = new short[count];
    bytes.asShortBuffer().get(samples);
    return new SoundFrame(
        stream,
        first,
        pageMs,
        (flags & HELD) != 0,
        (flags & PLAYING) != 0,
        (flags & FREE) != 0,
        samples);
  }

  private static UUID uuid(ByteBuffer bytes) {
    bytes.order(ByteOrder.BIG_ENDIAN);
    UUID uuid = new UUID(bytes.getLong(), bytes.getLong());
    bytes.order(ByteOrder.LITTLE_ENDIAN);
    return uuid;
  }

  private static void require(boolean holds, String expected) {
    if (!holds) {
      throw new BadMessage("expected " + expected);
    }
  }

  /** The sample after the last. */
  long end() {
    return first + samples.length;
  }
}

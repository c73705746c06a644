package tallyback.audio;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * Writes clips as WAV: 16-bit PCM, 16 kHz, one channel. Thread rule: no state; call from anywhere.
 */
public final class WavWriter {

  private static final int HEADER_BYTES = 44;
  private static final short PCM = 1;

  private WavWriter() {}

  /**
   * A clip as the bytes of a WAV file.
   *
   * @param clip the clip
   * @return header and samples
   */
  public static byte[] toBytes(Clip clip) {
    byte[] samples = clip.toPcmBytes();
    ByteBuffer bytes =
        ByteBuffer.allocate(HEADER_BYTES + samples.length).order(ByteOrder.LITTLE_ENDIAN);
    tag(bytes, "RIFF").putInt(HEADER_BYTES - 8 + samples.length);
    tag(bytes, "WAVE");
    tag(bytes, "fmt ").putInt(16).putShort(PCM).putShort((short) 1).putInt(Clip.SAMPLE_RATE_HZ);
    bytes
        .putInt(Clip.SAMPLE_RATE_HZ * Short.BYTES)
        .putShort((short) Short.BYTES)
        .putShort((short) Short.SIZE);
    tag(bytes, "data").putInt(samples.length).put(samples);
    return bytes.array();
  }

  /**
   * Writes a clip to a file, replacing what was there.
   *
   * @param clip the clip
   * @param file where to
   * @throws IOException if the disk fails
   */
  public static void write(Clip clip, Path file) throws IOException {
    Files.write(file, toBytes(clip));
  }

  private static ByteBuffer tag(ByteBuffer bytes, String tag) {
    return bytes.put(tag.getBytes(StandardCharsets.ISO_8859_1));
  }
}

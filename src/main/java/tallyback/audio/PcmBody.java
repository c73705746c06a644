package tallyback.audio;

import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;

/**
 * The sample bytes of a WAV file, whole samples only, two channels averaged into one.
 *
 * <p>Thread rule: one thread. Closing it closes the file.
 */
final class PcmBody extends FilterInputStream {

  private final boolean stereo;
  private final int frameBytes;
  private final boolean lengthKnown;
  private long bytesLeft;

  PcmBody(InputStream in, WavHeader header) {
    super(in);
    stereo = header.channels() == 2;
    frameBytes = header.channels() * Short.BYTES;
    lengthKnown = header.dataBytes() != WavHeader.UNTIL_END;
    bytesLeft = header.dataBytes();
  }

  /** After the end: how many bytes the header promised but the file did not have. */
  long missingBytes() {
    return lengthKnown ? bytesLeft : 0;
  }

  @Override
  public int read() {
    throw new UnsupportedOperationException("samples have two bytes each; read into an array");
  }

  @Override
  public int read(byte[] target, int offset, int length) throws IOException {
    int frames = length / Short.BYTES;
    if (frames == 0) {
      return length == 0 ? 0 : -1;
    }
    int wanted = (int) Math.min((long) frames * frameBytes, bytesLeft);
    byte[] raw = in.readNBytes(wanted);
    int whole = raw.length / frameBytes;
    bytesLeft -= raw.length;
    if (whole == 0) {
      return -1;
    }
    if (!stereo) {
      System.arraycopy(raw, 0, target, offset, whole * Short.BYTES);
    } else {
      for (int i = 0; i < whole; i++) {
        int mean = (sample(raw, 2 * i) + sample(raw, 2 * i + 1)) >> 1;
        target[offset + 2 * i] = (byte) mean;
        target[offset + 2 * i + 1] = (byte) (mean >> 8);
      }
    }
    return whole * Short.BYTES;
  }

  private static int sample(byte[] raw, int index) {
    return (raw[2 * index] & 0xFF) | (raw[2 * index + 1] << 8);
  }

  @Override
  public boolean markSupported() {
    return false;
  }
}

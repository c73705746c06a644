package tallyback.audio;

import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;

/**
 * The sample bytes of a WAV file, whole samples only, two channels averaged into one. A channel
 * that held nothing but zeros so far is left out: it would only make the other one fainter.
 *
 * <p>Thread rule: one thread. Closing it closes the file.
 */
final class PcmBody extends FilterInputStream {

  private final boolean stereo;
  private final int frameBytes;
  private final boolean lengthKnown;
  private final FullScale left;
  private final FullScale right;
  private boolean leftLives;
  private boolean rightLives;
  private long bytesLeft;

  PcmBody(InputStream in, WavHeader header) {
    super(in);
    stereo = header.channels() == 2;
    frameBytes = header.channels() * Short.BYTES;
    lengthKnown = header.dataBytes() != WavHeader.UNTIL_END;
    bytesLeft = header.dataBytes();
    left = new FullScale(header.rateHz());
    right = new FullScale(header.rateHz());
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
    for (int i = 0; i < whole; i++) {
      int sample = stereo ? both(sample(raw, 2 * i), sample(raw, 2 * i + 1)) : one(sample(raw, i));
      target[offset + 2 * i] = (byte) sample;
      target[offset + 2 * i + 1] = (byte) (sample >> 8);
    }
    return whole * Short.BYTES;
  }

  private int one(int sample) {
    left.accept(sample);
    return sample;
  }

  private int both(int leftSample, int rightSample) {
    left.accept(leftSample);
    right.accept(rightSample);
    leftLives |= leftSample != 0;
    rightLives |= rightSample != 0;
    int sum = leftSample + rightSample;
    return leftLives && rightLives ? sum >> 1 : sum;
  }

  /** The channel that was overdriven for longer, so far. */
  FullScale overdriven() {
    return right.seconds() > left.seconds() ? right : left;
  }

  /** Which of two channels held nothing but zeros while the other did not; empty for neither. */
  String deadChannel() {
    if (!stereo || leftLives == rightLives) {
      return "";
    }
    return leftLives ? "right" : "left";
  }

  private static int sample(byte[] raw, int index) {
    return (raw[2 * index] & 0xFF) | (raw[2 * index + 1] << 8);
  }

  @Override
  public boolean markSupported() {
    return false;
  }
}

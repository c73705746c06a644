package tallyback.audio;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Arrays;
import java.util.HexFormat;

/**
 * One piece of sound, usually one utterance: 16 kHz, mono, 16-bit linear PCM, and where it began in
 * its stream.
 *
 * <p>Thread rule: immutable; share freely.
 */
public final class Clip {

  /** Samples per second of every clip. */
  public static final int SAMPLE_RATE_HZ = 16_000;

  private static final int LONGEST_ENTRY_MS = 20_000;

  private final short[] samples;
  private final long startMs;

  /**
   * Copies the samples.
   *
   * @param samples 16-bit linear PCM at {@link #SAMPLE_RATE_HZ}
   * @param startMs milliseconds from the beginning of the stream to the first sample, 0 or more
   */
  public Clip(short[] samples, long startMs) {
    if (startMs < 0) {
      throw new IllegalArgumentException("startMs " + startMs + ": expected 0 or more");
    }
    this.samples = samples.clone();
    this.startMs = startMs;
  }

  /**
   * The sound itself.
   *
   * @return a copy of the samples
   */
  public short[] samples() {
    return samples.clone();
  }

  /**
   * How many samples there are.
   *
   * @return the count
   */
  public int length() {
    return samples.length;
  }

  /**
   * One sample.
   *
   * @param index from 0
   * @return its value
   */
  public short sample(int index) {
    return samples[index];
  }

  /**
   * Where the clip begins in its stream.
   *
   * @return milliseconds from the beginning of the stream
   */
  public long startMs() {
    return startMs;
  }

  /**
   * Where the clip ends in its stream.
   *
   * @return milliseconds from the beginning of the stream
   */
  public long endMs() {
    return startMs + durationMs();
  }

  /**
   * How long the clip is.
   *
   * @return milliseconds, rounded down
   */
  public long durationMs() {
    return samples.length * 1000L / SAMPLE_RATE_HZ;
  }

  /**
   * What is left of it from a moment on.
   *
   * @param ms milliseconds from the beginning of the stream
   * @return the rest; all of it when the moment lies before it, nothing when behind
   */
  public Clip from(long ms) {
    long skipMs = Math.max(0, Math.min(ms - startMs, durationMs()));
    int skip = (int) (skipMs * SAMPLE_RATE_HZ / 1000);
    return new Clip(Arrays.copyOfRange(samples, skip, samples.length), startMs + skipMs);
  }

  /**
   * Whether every sample is zero (or there is none): a muted or broken microphone, never a quiet
   * room.
   *
   * @return whether the clip is digital silence
   */
  public boolean isDigitalSilence() {
    for (short sample : samples) {
      if (sample != 0) {
        return false;
      }
    }
    return true;
  }

  /**
   * Whether a piece of the sound is missing, as when a wireless microphone lost its link: a tenth
   * of a second or more of zeros that begins or ends in the middle of a sound. A pause that
   * somebody silenced with zeros is none, because speech fades before it.
   *
   * @return whether there is such a hole
   */
  public boolean hasHole() {
    return Hole.isIn(samples);
  }

  /**
   * Whether so much of the sound is clipped that words can't be told apart for certain: more than a
   * fiftieth of the samples stand at full scale beside another one that does (a choice of our own
   * between 1 %, which does little harm, and 10 %, which makes numbers into others).
   *
   * @return whether the microphone was badly overdriven
   */
  public boolean isOverdriven() {
    int clipped = 0;
    for (int i = 1; i < samples.length; i++) {
      if (FullScale.reaches(samples[i - 1]) && FullScale.reaches(samples[i])) {
        clipped++;
      }
    }
    return clipped > samples.length / 50;
  }

  /**
   * Whether a word may be lost or changed in it, however clear the rest is: it {@linkplain #hasHole
   * has a hole}, {@linkplain #isOverdriven is overdriven}, or goes on for more than 20 s without a
   * pause, which no single entry does (a choice of our own): then it is talk in which an entry may
   * lie by chance.
   *
   * @return whether nothing may be noted of it without asking
   */
  public boolean isSpoilt() {
    return hasHole() || isOverdriven() || durationMs() > LONGEST_ENTRY_MS;
  }

  /**
   * The samples as they stand in a WAV file.
   *
   * @return 16-bit little-endian PCM
   */
  public byte[] toPcmBytes() {
    ByteBuffer bytes =
        ByteBuffer.allocate(samples.length * Short.BYTES).order(ByteOrder.LITTLE_ENDIAN);
    bytes.asShortBuffer().put(samples);
    return bytes.array();
  }

  /**
   * The name of this sound: the same samples always have the same one, wherever they began.
   *
   * @return SHA-256 (FIPS 180-4) of {@link #toPcmBytes()}, 64 hexadecimal digits in lower case
   */
  public String sha256() {
    try {
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(toPcmBytes()));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Clip clip
        && startMs == clip.startMs
        && Arrays.equals(samples, clip.samples);
  }

  @Override
  public int hashCode() {
    return 31 * Long.hashCode(startMs) + Arrays.hashCode(samples);
  }

  @Override
  public String toString() {
    return "Clip[" + durationMs() + " ms from " + startMs + " ms]";
  }
}

package tallyback.log;

import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/**
 * The sound of an entry as the bytes of a sound file, or the picture of an entry of the kind {@code
 * picture} as those of a JPEG file, named by their SHA-256. Immutable; the bytes are copied in and
 * out.
 */
public final class SoundClip {

  /** The longest clip the log takes: 32 MiB, over a quarter of an hour at 16 kHz mono 16 bit. */
  public static final int MAX_BYTES = 32 << 20;

  private final byte[] bytes;
  private final String hash;

  /**
   * A clip of these bytes.
   *
   * @throws LogRefused if there are none, or more than {@link #MAX_BYTES}
   */
  public SoundClip(byte[] bytes) {
    if (bytes.length == 0 || bytes.length > MAX_BYTES) {
      throw new LogRefused(
          "sound clip: expected 1 to "
              + MAX_BYTES
              + " bytes, found "
              + bytes.length
              + "; note the entry in shorter pieces");
    }
    this.bytes = bytes.clone();
    this.hash = hashOf(bytes);
  }

  /** SHA-256 of the bytes, 64 lower-case hex digits. */
  public String hash() {
    return hash;
  }

  /** A copy of the bytes. */
  public byte[] bytes() {
    return bytes.clone();
  }

  /** SHA-256 of any bytes, 64 lower-case hex digits (FIPS 180-4). */
  public static String hashOf(byte[] bytes) {
    try {
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    } catch (NoSuchAlgorithmException e) {
      throw new AssertionError("every Java platform has SHA-256", e);
    }
  }
}

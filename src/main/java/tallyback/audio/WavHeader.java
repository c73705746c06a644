package tallyback.audio;

import java.io.DataInputStream;
import java.io.EOFException;
import java.io.IOException;
import java.nio.charset.StandardCharsets;

/**
 * What a WAV file says about its samples (Microsoft and IBM, <cite>Multimedia Programming Interface
 * and Data Specifications 1.0</cite>, 1991; Microsoft, <cite>Multiple Channel Audio Data and WAVE
 * Files</cite>, 2007, for the extensible form).
 *
 * @param channels 1 or 2
 * @param rateHz samples per second and channel
 * @param dataBytes length of the samples, or {@link #UNTIL_END} when the writer never came to fill
 *     it in
 */
record WavHeader(int channels, int rateHz, long dataBytes) {

  static final long UNTIL_END = Long.MAX_VALUE;

  static final int LOWEST_RATE_HZ = 8_000;
  static final int HIGHEST_RATE_HZ = 96_000;

  private static final String WANTED = "a WAV file of 16-bit PCM, 8 to 96 kHz, one or two channels";
  private static final String CONVERT = "save it again as 16-bit PCM WAV";
  private static final String RECORD_AGAIN = "copy or record it again";
  private static final int PCM = 1;
  private static final int FLOAT = 3;
  private static final int EXTENSIBLE = 0xFFFE;
  private static final int SHORTEST_FORMAT = 16;
  private static final int LONGEST_FORMAT = 4096;
  private static final int EXTENSION_AT = 24;
  private static final long UNSIGNED_INT_MAX = 0xFFFF_FFFFL;

  /** Reads up to the first sample. */
  static WavHeader read(DataInputStream in, String file, long fileBytes) throws IOException {
    if (fileBytes == 0) {
      throw new AudioRefused(file, WANTED, "an empty file of 0 bytes", RECORD_AGAIN);
    }
    try {
      requireRiff(in, file);
      return readChunks(in, file);
    } catch (EOFException e) {
      throw new AudioRefused(
          file, WANTED, "a header cut off after " + fileBytes + " bytes", RECORD_AGAIN);
    }
  }

  private static void requireRiff(DataInputStream in, String file) throws IOException {
    String riff = readTag(in);
    if (riff.equals("RF64") || riff.equals("BW64")) {
      throw AudioRefused.ofAnotherKind(file, WANTED, "a WAV file of the long form", CONVERT);
    }
    if (!riff.equals("RIFF")) {
      throw new AudioRefused(
          file, WANTED, "something that is not WAV", "give a recording saved as WAV");
    }
    readUnsignedInt(in);
    String form = readTag(in);
    if (!form.equals("WAVE")) {
      throw new AudioRefused(
          file, WANTED, "a RIFF file of another kind", "give a recording saved as WAV");
    }
  }

  private static WavHeader readChunks(DataInputStream in, String file) throws IOException {
    byte[] format = null;
    while (true) {
      String tag = readTag(in);
      long size = readUnsignedInt(in);
      if (tag.equals("data")) {
        if (format == null) {
          throw new AudioRefused(
              file, WANTED, "samples without a description of their format", CONVERT);
        }
        return of(format, size, file);
      }
      if (tag.equals("fmt ")) {
        if (size < SHORTEST_FORMAT || size > LONGEST_FORMAT) {
          throw new AudioRefused(
              file, WANTED, "a format description of " + size + " bytes", CONVERT);
        }
        format = in.readNBytes((int) size);
        if (format.length < size) {
          throw new EOFException();
        }
        in.skipNBytes(size & 1);
      } else {
        in.skipNBytes(size + (size & 1));
      }
    }
  }

  private static WavHeader of(byte[] format, long dataBytes, String file) throws AudioRefused {
    int coding = unsignedShort(format, 0);
    int channels = unsignedShort(format, 2);
    long rateHz = unsignedInt(format, 4);
    int bits = unsignedShort(format, 14);
    if (coding == EXTENSIBLE && format.length >= EXTENSION_AT + 2) {
      coding = unsignedShort(format, EXTENSION_AT);
    }
    if (coding != PCM || bits != Short.SIZE) {
      throw AudioRefused.ofAnotherKind(file, "16-bit PCM", sampleKind(coding, bits), CONVERT);
    }
    if (channels < 1 || channels > 2) {
      throw AudioRefused.ofAnotherKind(
          file, "one or two channels", channels + " channels", "save it again with one channel");
    }
    if (rateHz < LOWEST_RATE_HZ || rateHz > HIGHEST_RATE_HZ) {
      throw AudioRefused.ofAnotherKind(
          file,
          "8000 to 96000 samples per second",
          Long.toString(rateHz),
          "save it again at 16000");
    }
    boolean unknownLength = dataBytes == 0 || dataBytes == UNSIGNED_INT_MAX;
    if (!unknownLength && dataBytes % (channels * (long) Short.BYTES) != 0) {
      throw new AudioRefused(
          file,
          "whole samples of " + channels * Short.BYTES + " bytes",
          dataBytes + " bytes of sound",
          RECORD_AGAIN);
    }
    return new WavHeader(channels, (int) rateHz, unknownLength ? UNTIL_END : dataBytes);
  }

  private static String sampleKind(int coding, int bits) {
    return switch (coding) {
      case PCM -> bits + "-bit PCM";
      case FLOAT -> bits + "-bit floating point";
      default -> "compressed sound of kind " + coding;
    };
  }

  private static String readTag(DataInputStream in) throws IOException {
    byte[] tag = new byte[4];
    in.readFully(tag);
    return new String(tag, StandardCharsets.ISO_8859_1);
  }

  private static long readUnsignedInt(DataInputStream in) throws IOException {
    return Integer.toUnsignedLong(Integer.reverseBytes(in.readInt()));
  }

  private static int unsignedShort(byte[] bytes, int at) {
    return Byte.toUnsignedInt(bytes[at]) | (Byte.toUnsignedInt(bytes[at + 1]) << 8);
  }

  private static long unsignedInt(byte[] bytes, int at) {
    return unsignedShort(bytes, at) | ((long) unsignedShort(bytes, at + 2) << 16);
  }
}

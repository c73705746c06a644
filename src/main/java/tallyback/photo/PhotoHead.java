package tallyback.photo;

import java.io.EOFException;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.SeekableByteChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.Arrays;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tallyback.photo.PhotoFile.Form;
import tallyback.photo.PhotoRefused.Why;

/**
 * Reads the head of a photo: what it is by its content and not by its name, its size, and its Exif
 * data. It skips from part to part and never takes more than a part of 64 KiB (PNG: 1 MiB) into
 * memory; nothing is unpacked.
 */
final class PhotoHead {

  /** Longer than any photo of a camera; a film in a photo's name would be copied for hours. */
  static final long MOST_BYTES = 200L << 20;

  /** The most pixels: cameras and phones of today stay below. */
  static final long MOST_PIXELS = 200_000_000;

  /**
   * The most where the whole picture has to be held in memory, packed, while it is read: JPEG in
   * passes.
   */
  static final long MOST_PIXELS_IN_PASSES = 100_000_000;

  /** The longest side; what JPEG allows. */
  static final int MOST_SIDE = 65_535;

  private static final int MOST_PARTS = 20_000;
  private static final int MOST_EXIF_BYTES = 1 << 20;
  private static final int SEARCHED_BYTES = 4 << 20;

  private static final byte[] EXIF = {'E', 'x', 'i', 'f', 0, 0};
  private static final byte[] PNG = {(byte) 0x89, 'P', 'N', 'G', '\r', '\n', 0x1A, '\n'};

  /** Brands of ISO base media files that are single pictures; others are films. */
  private static final Set<String> STILL =
      Set.of("heic", "heix", "heim", "heis", "hevc", "hevx", "mif1", "msf1", "avif", "avis");

  private final Path path;
  private final String name;
  private final SeekableByteChannel in;

  private PhotoHead(Path path, String name, SeekableByteChannel in) {
    this.path = path;
    this.name = name;
    this.in = in;
  }

  /**
   * Reads it.
   *
   * @param path the file
   * @param name what it is called in messages and kept as
   * @throws PhotoRefused if it is no photo, or can't be used
   */
  static PhotoFile of(Path path, String name) throws PhotoRefused {
    try {
      BasicFileAttributes about =
          Files.readAttributes(path, BasicFileAttributes.class, LinkOption.NOFOLLOW_LINKS);
      if (about.isSymbolicLink()) {
        throw new PhotoRefused(Why.LINK, PhotoText.LINK);
      }
      if (!about.isRegularFile()) {
        throw new PhotoRefused(Why.NO_PHOTO, PhotoText.NO_PHOTO);
      }
      if (about.size() == 0) {
        throw new PhotoRefused(Why.BROKEN, PhotoText.EMPTY);
      }
      try (SeekableByteChannel in =
          Files.newByteChannel(path, Set.of(StandardOpenOption.READ, LinkOption.NOFOLLOW_LINKS))) {
        return new PhotoHead(path, name, in).read(about.size());
      }
    } catch (EOFException e) {
      throw new PhotoRefused(Why.BROKEN, PhotoText.CUT_OFF, e);
    } catch (AccessDeniedException | NoSuchFileException e) {
      throw new PhotoRefused(Why.UNREADABLE, PhotoText.unreadable(e), e);
    } catch (IOException e) {
      throw new PhotoRefused(Why.UNREADABLE, PhotoText.unreadable(e), e);
    }
  }

  private PhotoFile read(long size) throws IOException, PhotoRefused {
    byte[] first = bytes((int) Math.min(16, size));
    if (first.length >= 3 && at(first, 0) == 0xFF && at(first, 1) == 0xD8 && at(first, 2) == 0xFF) {
      requireLength(size);
      return jpeg();
    }
    if (begins(first, PNG)) {
      requireLength(size);
      return png();
    }
    String otherForm = otherForm(first);
    if (otherForm.isEmpty()) {
      throw new PhotoRefused(Why.NO_PHOTO, PhotoText.NO_PHOTO);
    }
    throw new PhotoRefused(Why.OTHER_FORM, PhotoText.otherForm(otherForm, packedTime(size)));
  }

  /** When a photo in another form says that it was taken: its Exif data stand near the front. */
  private @Nullable CameraTime packedTime(long size) throws IOException {
    in.position(0);
    byte[] front = bytes((int) Math.min(SEARCHED_BYTES, size));
    for (int at = 0; at + EXIF.length + 8 < front.length; at++) {
      if (front[at] == 'E' && Arrays.equals(front, at, at + EXIF.length, EXIF, 0, EXIF.length)) {
        int end = Math.min(front.length, at + EXIF.length + MOST_EXIF_BYTES);
        return ExifPart.of(Arrays.copyOfRange(front, at + EXIF.length, end)).time();
      }
    }
    return null;
  }

  private static void requireLength(long size) throws PhotoRefused {
    if (size > MOST_BYTES) {
      throw new PhotoRefused(Why.TOO_LARGE, PhotoText.tooLong(size));
    }
  }

  private static String otherForm(byte[] first) {
    String text = new String(first, StandardCharsets.ISO_8859_1);
    if (text.startsWith("ftyp", 4) && text.length() >= 12) {
      String brand = text.substring(8, 12);
      return !STILL.contains(brand) ? "" : brand.startsWith("avi") ? "AVIF" : "HEIC";
    }
    if (text.startsWith("RIFF") && text.startsWith("WEBP", 8)) {
      return "WebP";
    }
    if (text.startsWith("II*\0") || text.startsWith("MM\0*")) {
      return "TIFF or a camera's raw form";
    }
    return text.startsWith("GIF8") ? "GIF" : "";
  }

  // ---- JPEG: ISO/IEC 10918-1 annex B

  private PhotoFile jpeg() throws IOException, PhotoRefused {
    in.position(2);
    ExifPart exif = ExifPart.NONE;
    int[] size = null;
    boolean inPasses = false;
    for (int parts = 0; parts < MOST_PARTS; parts++) {
      int marker = marker();
      if (marker == 0xDA || marker == 0xD9) {
        if (size == null) {
          throw new PhotoRefused(Why.BROKEN, PhotoText.DAMAGED);
        }
        return photo(Form.JPEG, size[1], size[0], exif, inPasses);
      }
      if (marker == 0x01 || (marker >= 0xD0 && marker <= 0xD7)) {
        continue;
      }
      int length = number(bytes(2)) - 2;
      if (length < 0) {
        throw new PhotoRefused(Why.BROKEN, PhotoText.DAMAGED);
      }
      long next = in.position() + length;
      if (marker == 0xE1 && exif.equals(ExifPart.NONE) && length > EXIF.length) {
        byte[] part = bytes(length);
        exif = begins(part, EXIF) ? ExifPart.of(from(part, EXIF.length)) : exif;
      } else if (isFrame(marker) && size == null) {
        byte[] frame = bytes(Math.min(length, 5));
        if (frame.length < 5) {
          throw new PhotoRefused(Why.BROKEN, PhotoText.DAMAGED);
        }
        size = new int[] {number(frame, 1), number(frame, 3)};
        inPasses = marker == 0xC2 || marker == 0xC6 || marker == 0xCA || marker == 0xCE;
      }
      in.position(next);
    }
    throw new PhotoRefused(Why.BROKEN, PhotoText.DAMAGED);
  }

  /** The next marker; fill bytes before it are passed over. */
  private int marker() throws IOException, PhotoRefused {
    if (at(bytes(1), 0) != 0xFF) {
      throw new PhotoRefused(Why.BROKEN, PhotoText.DAMAGED);
    }
    int marker = 0xFF;
    while (marker == 0xFF) {
      marker = at(bytes(1), 0);
    }
    return marker;
  }

  private static boolean isFrame(int marker) {
    return marker >= 0xC0 && marker <= 0xCF && marker != 0xC4 && marker != 0xC8 && marker != 0xCC;
  }

  // ---- PNG: ISO/IEC 15948

  private PhotoFile png() throws IOException, PhotoRefused {
    in.position(PNG.length);
    long width = 0;
    long height = 0;
    ExifPart exif = ExifPart.NONE;
    for (int parts = 0; parts < MOST_PARTS; parts++) {
      byte[] start = bytes(8);
      long length = longNumber(start, 0);
      String type = new String(start, 4, 4, StandardCharsets.ISO_8859_1);
      long next = in.position() + length + 4;
      if (parts == 0) {
        if (!type.equals("IHDR") || length != 13) {
          throw new PhotoRefused(Why.BROKEN, PhotoText.DAMAGED);
        }
        byte[] size = bytes(8);
        width = longNumber(size, 0);
        height = longNumber(size, 4);
      } else if (type.equals("IEND")) {
        return photo(Form.PNG, width, height, exif, false);
      } else if (type.equals("eXIf") && length <= MOST_EXIF_BYTES) {
        exif = ExifPart.of(bytes((int) length));
      }
      if (next > in.size()) {
        throw new PhotoRefused(Why.BROKEN, PhotoText.CUT_OFF);
      }
      in.position(next);
    }
    throw new PhotoRefused(Why.BROKEN, PhotoText.DAMAGED);
  }

  private PhotoFile photo(Form form, long width, long height, ExifPart exif, boolean inPasses)
      throws PhotoRefused {
    if (width == 0 || height == 0) {
      throw new PhotoRefused(Why.BROKEN, PhotoText.DAMAGED);
    }
    long most = inPasses ? MOST_PIXELS_IN_PASSES : MOST_PIXELS;
    if (width > MOST_SIDE || height > MOST_SIDE || width * height > most) {
      throw new PhotoRefused(Why.TOO_LARGE, PhotoText.tooManyPixels(width, height));
    }
    return new PhotoFile(
        path, name, form, (int) width, (int) height, exif.orientation(), exif.time());
  }

  // ---- bytes

  private byte[] bytes(int count) throws IOException {
    ByteBuffer into = ByteBuffer.allocate(count);
    while (into.hasRemaining()) {
      if (in.read(into) < 0) {
        throw new EOFException();
      }
    }
    return into.array();
  }

  private static int at(byte[] bytes, int index) {
    return bytes[index] & 0xFF;
  }

  private static int number(byte[] bytes) {
    return number(bytes, 0);
  }

  private static int number(byte[] bytes, int from) {
    return at(bytes, from) << 8 | at(bytes, from + 1);
  }

  private static long longNumber(byte[] bytes, int from) {
    return (long) number(bytes, from) << 16 | number(bytes, from + 2);
  }

  private static boolean begins(byte[] bytes, byte[] with) {
    return bytes.length >= with.length
        && Arrays.equals(bytes, 0, with.length, with, 0, with.length);
  }

  private static byte[] from(byte[] bytes, int index) {
    return Arrays.copyOfRange(bytes, index, bytes.length);
  }
}

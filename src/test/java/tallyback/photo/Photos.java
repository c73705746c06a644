package tallyback.photo;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.zip.CRC32;
import java.util.zip.Deflater;
import java.util.zip.DeflaterOutputStream;
import javax.imageio.ImageIO;
import org.apache.commons.imaging.formats.jpeg.exif.ExifRewriter;
import org.apache.commons.imaging.formats.tiff.constants.ExifTagConstants;
import org.apache.commons.imaging.formats.tiff.constants.TiffDirectoryType;
import org.apache.commons.imaging.formats.tiff.constants.TiffTagConstants;
import org.apache.commons.imaging.formats.tiff.taginfos.TagInfoAscii;
import org.apache.commons.imaging.formats.tiff.write.TiffOutputSet;
import org.jspecify.annotations.Nullable;

/** Photos as cameras write them, for tests: with their time, which way is up, and where. */
public final class Photos {

  /** Above left, above right, below left, below right of the scene when it is upright. */
  static final Color[] CORNERS = {Color.RED, Color.GREEN, Color.BLUE, Color.YELLOW};

  /** The writing library knows Exif up to 2.3; this tag came with 2.31. */
  private static final TagInfoAscii OFFSET_TIME_ORIGINAL =
      new TagInfoAscii("OffsetTimeOriginal", 0x9011, -1, TiffDirectoryType.EXIF_DIRECTORY_EXIF_IFD);

  private Photos() {}

  /**
   * What the camera wrote.
   *
   * @param taken as Exif has it, {@code 2026:03:02 09:57:04}; null for none
   * @param fraction digits of the second, or null
   * @param offset such as {@code +01:00}, or null
   * @param orientation 1 to 8; 0 for none
   * @param place whether it wrote where it was
   */
  public record Exif(
      @Nullable String taken,
      @Nullable String fraction,
      @Nullable String offset,
      int orientation,
      boolean place) {

    /** With a place, upright. */
    public static Exif at(String taken) {
      return new Exif(taken, null, null, 1, true);
    }
  }

  /** A JPEG file of the scene, upright when it is turned as its Exif data say. */
  public static byte[] jpeg(int width, int height, Exif exif) {
    return withExif(plainJpeg(stored(scene(width, height), exif.orientation())), exif);
  }

  /** Writes one. */
  public static Path jpeg(Path file, int width, int height, Exif exif) {
    try {
      return Files.write(file, jpeg(width, height, exif));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Four colours, one in each corner. */
  static BufferedImage scene(int width, int height) {
    BufferedImage scene = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
    Graphics2D pen = scene.createGraphics();
    for (int corner = 0; corner < 4; corner++) {
      pen.setColor(CORNERS[corner]);
      pen.fillRect(
          corner % 2 * (width / 2), corner / 2 * (height / 2), (width + 1) / 2, (height + 1) / 2);
    }
    pen.dispose();
    return scene;
  }

  /**
   * How a camera that was held so stores the upright scene, by the table of Exif 2.32, 4.6.4 A,
   * which says where row 0 and column 0 of the stored picture are in the scene.
   */
  private static BufferedImage stored(BufferedImage scene, int orientation) {
    int width = scene.getWidth();
    int height = scene.getHeight();
    boolean swaps = orientation >= 5;
    BufferedImage stored =
        new BufferedImage(
            swaps ? height : width, swaps ? width : height, BufferedImage.TYPE_INT_RGB);
    for (int row = 0; row < stored.getHeight(); row++) {
      for (int column = 0; column < stored.getWidth(); column++) {
        int fromRight = width - 1;
        int fromBottom = height - 1;
        int rgb =
            switch (orientation) {
              // row 0 is the top, column 0 the right-hand side
              case 2 -> scene.getRGB(fromRight - column, row);
              // bottom, right
              case 3 -> scene.getRGB(fromRight - column, fromBottom - row);
              // bottom, left
              case 4 -> scene.getRGB(column, fromBottom - row);
              // row 0 is the left-hand side, column 0 the top
              case 5 -> scene.getRGB(row, column);
              // right, top
              case 6 -> scene.getRGB(fromRight - row, column);
              // right, bottom
              case 7 -> scene.getRGB(fromRight - row, fromBottom - column);
              // left, bottom
              case 8 -> scene.getRGB(row, fromBottom - column);
              default -> scene.getRGB(column, row);
            };
        stored.setRGB(column, row, rgb);
      }
    }
    return stored;
  }

  static byte[] plainJpeg(BufferedImage picture) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try {
      if (!ImageIO.write(picture, "jpeg", bytes)) {
        throw new IllegalStateException("no writer");
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return bytes.toByteArray();
  }

  private static byte[] withExif(byte[] jpeg, Exif exif) {
    try {
      TiffOutputSet out = new TiffOutputSet();
      if (exif.orientation() > 0) {
        out.getOrCreateRootDirectory()
            .add(TiffTagConstants.TIFF_TAG_ORIENTATION, (short) exif.orientation());
      }
      text(out, ExifTagConstants.EXIF_TAG_DATE_TIME_ORIGINAL, exif.taken());
      text(out, ExifTagConstants.EXIF_TAG_SUB_SEC_TIME_ORIGINAL, exif.fraction());
      text(out, OFFSET_TIME_ORIGINAL, exif.offset());
      if (exif.place()) {
        out.setGpsInDegrees(-8.5437, 52.6638);
        out.getOrCreateRootDirectory().add(TiffTagConstants.TIFF_TAG_MAKE, "Invented Camera Works");
      }
      ByteArrayOutputStream bytes = new ByteArrayOutputStream();
      new ExifRewriter().updateExifMetadataLossless(jpeg, bytes, out);
      return bytes.toByteArray();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static void text(TiffOutputSet out, TagInfoAscii tag, @Nullable String value)
      throws IOException {
    if (value != null) {
      out.getOrCreateExifDirectory().add(tag, value);
    }
  }

  /**
   * A PNG file of one grey, as small as can be: ISO/IEC 15948, one bit a pixel, all noughts.
   *
   * @param tiff what stands in its eXIf chunk, or null
   */
  public static byte[] png(int width, int height, byte @Nullable [] tiff) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (DataOutputStream out = new DataOutputStream(bytes)) {
      out.write(new byte[] {(byte) 0x89, 'P', 'N', 'G', '\r', '\n', 0x1A, '\n'});
      ByteArrayOutputStream head = new ByteArrayOutputStream();
      DataOutputStream size = new DataOutputStream(head);
      size.writeInt(width);
      size.writeInt(height);
      size.write(new byte[] {1, 0, 0, 0, 0});
      chunk(out, "IHDR", head.toByteArray());
      if (tiff != null) {
        chunk(out, "eXIf", tiff);
      }
      ByteArrayOutputStream packed = new ByteArrayOutputStream();
      byte[] row = new byte[1 + (width + 7) / 8];
      try (DeflaterOutputStream rows =
          new DeflaterOutputStream(packed, new Deflater(Deflater.BEST_COMPRESSION))) {
        for (int i = 0; i < height; i++) {
          rows.write(row);
        }
      }
      chunk(out, "IDAT", packed.toByteArray());
      chunk(out, "IEND", new byte[0]);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return bytes.toByteArray();
  }

  private static void chunk(DataOutputStream out, String type, byte[] bytes) throws IOException {
    byte[] name = type.getBytes(StandardCharsets.ISO_8859_1);
    CRC32 sum = new CRC32();
    sum.update(name);
    sum.update(bytes);
    out.writeInt(bytes.length);
    out.write(name);
    out.write(bytes);
    out.writeInt((int) sum.getValue());
  }

  /**
   * Exif data by hand, byte by byte after TIFF 6.0 and Exif 2.32: little endian, IFD0 with
   * Orientation and the pointer to the Exif IFD, that with DateTimeOriginal.
   */
  static byte[] tiff(String taken, int orientation) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    bytes.writeBytes(new byte[] {'I', 'I', 42, 0, 8, 0, 0, 0});
    // IFD0 at 8: two entries, then the offset of the next IFD.
    bytes.writeBytes(new byte[] {2, 0});
    bytes.writeBytes(entry(0x0112, 3, 1, orientation));
    bytes.writeBytes(entry(0x8769, 4, 1, 38));
    bytes.writeBytes(new byte[4]);
    // The Exif IFD at 38: one entry; its text at 56.
    bytes.writeBytes(new byte[] {1, 0});
    bytes.writeBytes(entry(0x9003, 2, 20, 56));
    bytes.writeBytes(new byte[4]);
    bytes.writeBytes((taken + "\0").getBytes(StandardCharsets.US_ASCII));
    return bytes.toByteArray();
  }

  private static byte[] entry(int tag, int type, int count, int value) {
    return new byte[] {
      (byte) tag,
      (byte) (tag >> 8),
      (byte) type,
      0,
      (byte) count,
      0,
      0,
      0,
      (byte) value,
      (byte) (value >> 8),
      0,
      0
    };
  }
}

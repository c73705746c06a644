package tallyback.photo;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.AffineTransform;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.Iterator;
import java.util.Locale;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageReadParam;
import javax.imageio.ImageReader;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;
import javax.imageio.stream.FileImageInputStream;
import javax.imageio.stream.ImageInputStream;
import javax.imageio.stream.MemoryCacheImageOutputStream;
import tallyback.photo.PhotoRefused.Why;

/**
 * The copy of a photo that is kept: a JPEG file, upright, its long side at most {@link #LONG_SIDE}
 * pixels. It is written anew from the pixels, so that nothing else of the original is in it:
 * neither where it was taken, nor by whose camera, nor a small picture of what was cut away.
 *
 * <p>Large pictures are thinned out while they are read, so that no more than some 30 million
 * pixels are ever held. Stateless; any thread may make one.
 */
public final class ReducedCopy {

  /** Pixels of the longer side; a smaller photo keeps its size. */
  public static final int LONG_SIDE = 1280;

  /** What the copy is. */
  public static final String MEDIA_TYPE = "image/jpeg";

  /** No blocks to be seen around a bolt's edge; a copy has some 300 KB. */
  private static final float QUALITY = 0.85f;

  private ReducedCopy() {}

  /**
   * Makes it.
   *
   * @throws PhotoRefused if what is behind the head is damaged, or can't be read
   */
  public static byte[] of(PhotoFile photo) throws PhotoRefused {
    BufferedImage read = read(photo);
    BufferedImage small = reduced(read);
    return written(upright(small, photo.orientation()));
  }

  /**
   * SHA-256 (hex) of the original.
   *
   * @throws PhotoRefused if it can't be read
   */
  public static String hashOf(PhotoFile photo) throws PhotoRefused {
    try (InputStream in = Files.newInputStream(photo.path())) {
      MessageDigest digest = MessageDigest.getInstance("SHA-256");
      byte[] block = new byte[1 << 16];
      for (int count = in.read(block); count >= 0; count = in.read(block)) {
        digest.update(block, 0, count);
      }
      return HexFormat.of().formatHex(digest.digest());
    } catch (IOException e) {
      throw new PhotoRefused(Why.UNREADABLE, PhotoText.unreadable(e), e);
    } catch (NoSuchAlgorithmException e) {
      throw new AssertionError("every Java platform has SHA-256", e);
    }
  }

  private static BufferedImage read(PhotoFile photo) throws PhotoRefused {
    Iterator<ImageReader> readers = ImageIO.getImageReadersByFormatName(photo.form().called());
    ImageReader reader = readers.next();
    try (ImageInputStream in = new FileImageInputStream(photo.path().toFile())) {
      reader.setInput(in, true, true);
      boolean[] cutOff = {false};
      reader.addIIOReadWarningListener(
          (source, warning) ->
              cutOff[0] |=
                  warning.toLowerCase(Locale.ROOT).contains("premature")
                      || warning.contains("Truncated"));
      if (reader.getWidth(0) != photo.storedWidth()
          || reader.getHeight(0) != photo.storedHeight()) {
        throw new PhotoRefused(Why.BROKEN, PhotoText.DAMAGED);
      }
      ImageReadParam how = reader.getDefaultReadParam();
      int step = Math.max(1, Math.max(photo.storedWidth(), photo.storedHeight()) / (2 * LONG_SIDE));
      how.setSourceSubsampling(step, step, 0, 0);
      BufferedImage read = reader.read(0, how);
      if (cutOff[0]) {
        throw new PhotoRefused(Why.BROKEN, PhotoText.CUT_OFF);
      }
      return read;
    } catch (javax.imageio.IIOException e) {
      boolean colours = String.valueOf(e.getMessage()).contains("Unsupported Image Type");
      throw new PhotoRefused(Why.BROKEN, colours ? PhotoText.COLOURS : PhotoText.DAMAGED, e);
    } catch (IOException e) {
      throw new PhotoRefused(Why.UNREADABLE, PhotoText.unreadable(e), e);
    } catch (RuntimeException damaged) {
      // The platform's readers meet damage with whatever exception comes first.
      throw new PhotoRefused(Why.BROKEN, PhotoText.DAMAGED, damaged);
    } finally {
      reader.dispose();
    }
  }

  /** By halves first, so that each pixel of the copy has a share of all it stands for. */
  private static BufferedImage reduced(BufferedImage picture) {
    BufferedImage now = picture;
    while (Math.max(now.getWidth(), now.getHeight()) > 2 * LONG_SIDE) {
      now = drawn(now, (now.getWidth() + 1) / 2, (now.getHeight() + 1) / 2);
    }
    int longSide = Math.max(now.getWidth(), now.getHeight());
    double share = longSide > LONG_SIDE ? (double) LONG_SIDE / longSide : 1;
    return drawn(
        now,
        Math.max(1, (int) Math.round(now.getWidth() * share)),
        Math.max(1, (int) Math.round(now.getHeight() * share)));
  }

  private static BufferedImage drawn(BufferedImage picture, int width, int height) {
    BufferedImage drawn = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
    Graphics2D pen = drawn.createGraphics();
    pen.setColor(Color.WHITE);
    pen.fillRect(0, 0, width, height);
    pen.setRenderingHint(
        RenderingHints.KEY_INTERPOLATION, RenderingHints.VALUE_INTERPOLATION_BILINEAR);
    pen.drawImage(picture, 0, 0, width, height, null);
    pen.dispose();
    return drawn;
  }

  /** Turned and mirrored as the Exif orientation says. */
  private static BufferedImage upright(BufferedImage picture, int orientation) {
    if (orientation == 1) {
      return picture;
    }
    int width = picture.getWidth();
    int height = picture.getHeight();
    // Columns of the matrix: where a step right and a step down of the stored picture lead.
    AffineTransform turn =
        switch (orientation) {
          case 2 -> new AffineTransform(-1, 0, 0, 1, width, 0);
          case 3 -> new AffineTransform(-1, 0, 0, -1, width, height);
          case 4 -> new AffineTransform(1, 0, 0, -1, 0, height);
          case 5 -> new AffineTransform(0, 1, 1, 0, 0, 0);
          case 6 -> new AffineTransform(0, 1, -1, 0, height, 0);
          case 7 -> new AffineTransform(0, -1, -1, 0, height, width);
          default -> new AffineTransform(0, -1, 1, 0, 0, width);
        };
    boolean swaps = orientation >= 5;
    BufferedImage turned =
        new BufferedImage(
            swaps ? height : width, swaps ? width : height, BufferedImage.TYPE_INT_RGB);
    Graphics2D pen = turned.createGraphics();
    pen.drawImage(picture, turn, null);
    pen.dispose();
    return turned;
  }

  private static byte[] written(BufferedImage picture) {
    ImageWriter writer = ImageIO.getImageWritersByFormatName("jpeg").next();
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (MemoryCacheImageOutputStream out = new MemoryCacheImageOutputStream(bytes)) {
      ImageWriteParam how = writer.getDefaultWriteParam();
      how.setCompressionMode(ImageWriteParam.MODE_EXPLICIT);
      how.setCompressionQuality(QUALITY);
      writer.setOutput(out);
      writer.write(null, new IIOImage(picture, null, null), how);
    } catch (IOException e) {
      throw new AssertionError("writing into memory doesn't fail", e);
    } finally {
      writer.dispose();
    }
    return bytes.toByteArray();
  }
}

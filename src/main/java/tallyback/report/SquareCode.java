package tallyback.report;

import com.google.zxing.BarcodeFormat;
import com.google.zxing.EncodeHintType;
import com.google.zxing.WriterException;
import com.google.zxing.common.BitMatrix;
import com.google.zxing.qrcode.QRCodeWriter;
import com.google.zxing.qrcode.decoder.ErrorCorrectionLevel;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import javax.imageio.ImageIO;

/**
 * A text as a QR code (ISO/IEC 18004), with the quiet zone of four modules around: of letters for a
 * terminal, or as a picture for print. Stateless.
 */
public final class SquareCode {

  private static final int QUIET = 4;

  /** How wide a module is in a picture for paper: several, so that no printer blurs it. */
  private static final int PIXELS = 4;

  private static final char BOTH = '\u2588';
  private static final char UPPER = '\u2580';
  private static final char LOWER = '\u2584';

  /** Black on white whatever the terminal's own colours are, from the fixed part of its palette. */
  private static final String INK = "\u001b[38;5;16;48;5;231m";

  private static final String PLAIN = "\u001b[0m";

  private SquareCode() {}

  /**
   * As a picture, one unit a module.
   *
   * @return SVG 1.1, black on white
   */
  public static String svg(String text) {
    BitMatrix dark = modules(text);
    StringBuilder path = new StringBuilder();
    for (int y = 0; y < dark.getHeight(); y++) {
      for (int x = 0; x < dark.getWidth(); x++) {
        if (dark.get(x, y)) {
          path.append('M').append(x).append(' ').append(y).append("h1v1h-1z");
        }
      }
    }
    return """
    <svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %d" shape-rendering="crispEdges">\
    <path fill="#fff" d="M0 0h%dv%dH0z"/><path d="%s"/></svg>
    """
        .formatted(dark.getWidth(), dark.getHeight(), dark.getWidth(), dark.getHeight(), path);
  }

  /**
   * As a picture for paper, which reads neither SVG nor addresses.
   *
   * @return {@code data:image/png;base64,...}, black on white
   */
  public static String address(String text) {
    BitMatrix dark = modules(text);
    int side = dark.getWidth() * PIXELS;
    BufferedImage picture = new BufferedImage(side, side, BufferedImage.TYPE_BYTE_BINARY);
    for (int y = 0; y < side; y++) {
      for (int x = 0; x < side; x++) {
        picture.setRGB(x, y, dark.get(x / PIXELS, y / PIXELS) ? 0 : 0xffffff);
      }
    }
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try {
      if (!ImageIO.write(picture, "png", bytes)) {
        throw new IllegalStateException("the machine's Java writes no PNG");
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return "data:image/png;base64," + Base64.getEncoder().encodeToString(bytes.toByteArray());
  }

  /**
   * Draws it of letters: two modules one above the other in each, so that they come out square.
   *
   * @param colours whether whoever shows it understands colours (ECMA-48); else the dark modules
   *     are drawn, as on paper
   */
  public static List<String> lines(String text, boolean colours) {
    BitMatrix dark = modules(text);
    List<String> lines = new ArrayList<>();
    for (int y = 0; y < dark.getHeight(); y += 2) {
      StringBuilder line = new StringBuilder();
      for (int x = 0; x < dark.getWidth(); x++) {
        boolean upper = dark.get(x, y);
        boolean lower = y + 1 < dark.getHeight() && dark.get(x, y + 1);
        line.append(upper ? (lower ? BOTH : UPPER) : lower ? LOWER : ' ');
      }
      lines.add(colours ? INK + line + PLAIN : line.toString());
    }
    return lines;
  }

  private static BitMatrix modules(String text) {
    try {
      return new QRCodeWriter()
          .encode(
              text,
              BarcodeFormat.QR_CODE,
              0,
              0,
              Map.of(
                  EncodeHintType.MARGIN,
                  QUIET,
                  EncodeHintType.ERROR_CORRECTION,
                  ErrorCorrectionLevel.M));
    } catch (WriterException e) {
      throw new IllegalArgumentException(text, e);
    }
  }
}

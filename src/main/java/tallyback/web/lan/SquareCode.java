package tallyback.web.lan;

import com.google.zxing.BarcodeFormat;
import com.google.zxing.EncodeHintType;
import com.google.zxing.WriterException;
import com.google.zxing.common.BitMatrix;
import com.google.zxing.qrcode.QRCodeWriter;
import com.google.zxing.qrcode.decoder.ErrorCorrectionLevel;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/**
 * A text as a QR code (ISO/IEC 18004) of letters: two modules one above the other in each, so that
 * they come out square, with the quiet zone of four around. Stateless.
 */
final class SquareCode {

  private static final int QUIET = 4;
  private static final char BOTH = '\u2588';
  private static final char UPPER = '\u2580';
  private static final char LOWER = '\u2584';

  /** Black on white whatever the terminal's own colours are, from the fixed part of its palette. */
  private static final String INK = "\u001b[38;5;16;48;5;231m";

  private static final String PLAIN = "\u001b[0m";

  private SquareCode() {}

  /**
   * Draws it.
   *
   * @param colours whether whoever shows it understands colours (ECMA-48); else the dark modules
   *     are drawn, as on paper
   */
  static List<String> lines(String text, boolean colours) {
    BitMatrix dark;
    try {
      dark =
          new QRCodeWriter()
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
}

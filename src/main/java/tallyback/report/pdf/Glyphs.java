package tallyback.report.pdf;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.BitSet;
import org.apache.fontbox.ttf.CmapLookup;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.fontbox.ttf.TrueTypeFont;
import org.apache.pdfbox.io.RandomAccessReadBuffer;

/**
 * Which characters can be printed: those that both fonts hold, but for writing that runs from right
 * to left, which would stand the wrong way round. What can't be printed becomes {@link #UNPRINTED},
 * so that it is seen that something stands there.
 */
final class Glyphs {

  /** Stands for a character that can't be printed; every font has it. */
  static final String UNPRINTED = "\u25ca";

  private static final int HIGHEST = 0x10FFFF;

  private final BitSet printable;

  private Glyphs(BitSet printable) {
    this.printable = printable;
  }

  private static final class Common {
    static final Glyphs FONTS = read();
  }

  /** Those of the fonts of every document. */
  static Glyphs common() {
    return Common.FONTS;
  }

  private static Glyphs read() {
    BitSet both = characters("OpenSans-Regular.ttf");
    both.and(characters("OpenSans-Bold.ttf"));
    both.set('\n');
    both.set('\t');
    return new Glyphs(both);
  }

  private static BitSet characters(String name) {
    try (InputStream bytes = PaperDocument.font(name);
        TrueTypeFont font = new TTFParser().parse(new RandomAccessReadBuffer(bytes))) {
      CmapLookup glyphs = font.getUnicodeCmapLookup();
      BitSet characters = new BitSet();
      for (int point = ' '; point <= HIGHEST; point++) {
        if (glyphs.getGlyphId(point) != 0 && !runsLeft(point)) {
          characters.set(point);
        }
      }
      return characters;
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }

  private static boolean runsLeft(int point) {
    return switch (Character.getDirectionality(point)) {
      case Character.DIRECTIONALITY_RIGHT_TO_LEFT, Character.DIRECTIONALITY_RIGHT_TO_LEFT_ARABIC ->
          true;
      default -> false;
    };
  }

  /** Whether all of a text can be printed. */
  boolean canPrint(String text) {
    return text.codePoints().allMatch(printable::get);
  }

  /** The text with {@link #UNPRINTED} for what can't be printed. */
  String printable(String text) {
    if (canPrint(text)) {
      return text;
    }
    StringBuilder shown = new StringBuilder(text.length());
    text.codePoints()
        .forEach(
            point -> {
              if (printable.get(point)) {
                shown.appendCodePoint(point);
              } else {
                shown.append(UNPRINTED);
              }
            });
    return shown.toString();
  }
}

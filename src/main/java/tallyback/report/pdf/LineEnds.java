package tallyback.report.pdf;

import com.openhtmltopdf.extend.FSTextBreaker;
import java.text.BreakIterator;
import java.util.Locale;

/** Where a line may end: as usual, but not inside a time such as 11:39. One text at a time. */
final class LineEnds implements FSTextBreaker {

  private final BreakIterator usual = BreakIterator.getLineInstance(Locale.ENGLISH);
  private String text = "";

  @Override
  public void setText(String newText) {
    text = newText;
    usual.setText(newText);
  }

  @Override
  public int next() {
    int end = usual.next();
    while (end != BreakIterator.DONE && end > 0 && end < text.length() && isInsideTime(end)) {
      end = usual.next();
    }
    return end;
  }

  private boolean isInsideTime(int end) {
    return text.charAt(end - 1) == ':' && Character.isDigit(text.charAt(end));
  }
}

package tallyback.report.owner;

import java.util.List;

/**
 * In which form the owner wants the record.
 *
 * @param paper the sheets it is printed on
 * @param units the units he knows
 * @param pictures pictures to show, in this order
 */
public record Form(Paper paper, Units units, List<Picture> pictures) {

  /** Copies the list. */
  public Form {
    pictures = List.copyOf(pictures);
  }

  /** The same with pictures. */
  public Form with(List<Picture> shown) {
    return new Form(paper, units, shown);
  }

  /** Sizes of paper. */
  public enum Paper {
    /** 210 mm by 297 mm. */
    A4("210mm 297mm", "9.1pt"),
    /** 8.5 by 11 inches. */
    LETTER("8.5in 11in", "8.6pt");

    private final String size;
    private final String letters;

    Paper(String size, String letters) {
      this.size = size;
      this.letters = letters;
    }

    /** How large letters are, so that a day's work stands on two sheets. */
    String letters() {
      return letters;
    }

    /** Width and height as a style sheet takes them. */
    String size() {
      return size;
    }
  }

  /** Which units come first; what was said in others stands in brackets behind. */
  public enum Units {
    /** Litres, newton metres, millimetres, degrees Celsius. */
    METRIC,
    /** US quarts, foot pounds, inches, degrees Fahrenheit. */
    US
  }

  /**
   * A picture.
   *
   * @param address where its bytes are: {@code data:image/jpeg;base64,...} or {@code image/png}
   * @param words what is to be seen, for whoever can't see it
   */
  public record Picture(String address, String words) {}
}

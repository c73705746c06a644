package tallyback.web;

/** What the server tells a page in words. What the page itself says stands in its texts.js. */
final class PageTexts {

  static final String TOO_MANY = "too many pages are open here already; close one";
  static final String TOO_MUCH = "more sound at once than was asked for";
  static final String BUSY = "too much is waiting; say it again in a moment";
  static final String SILENT_PAGE = "the page said nothing for too long";
  static final String OVER = "Tallyback has ended on this machine";
  static final String LEFT_OPEN = "Asked and not answered: noted as unconfirmed";
  static final String SPOKEN_INTO = "Spoken into: say that again";
  static final String WORD_ALONE_STATUS = "called";
  static final String WRONG_HOST =
      "this page is only for a browser on this machine; open it at http://localhost:";
  static final String WRONG_ORIGIN = "another site may not talk to Tallyback";

  private PageTexts() {}

  static String movedApart(long seconds) {
    return "The clocks of this page and of the machine were apart by "
        + seconds
        + " s for a moment: times of entries about now may be wrong by that";
  }
}

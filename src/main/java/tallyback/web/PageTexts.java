package tallyback.web;

import java.net.URI;
import tallyback.app.MachineFailed;

/** What the server tells a page in words. What the page itself says stands in its texts.js. */
final class PageTexts {

  static final String TOO_MANY = "too many pages are open here already; close one";
  static final String TOO_MUCH = "more sound at once than was asked for";
  static final String BUSY = "too much is waiting; say it again in a moment";
  static final String SILENT_PAGE = "the page said nothing for too long";
  static final String OVER = "Tallyback has ended on this machine";
  static final String ANOTHER_JOB = "another job is noted here now";
  static final String NOT_NOW =
      "another job is just being begun, or Tallyback is ending; wait a moment";
  static final String NO_PHONES =
      "no phone can open this page: start Tallyback with 'serve --lan' for that";
  static final String LEFT_OPEN = "Asked and not answered: noted as unconfirmed";
  static final String SPOKEN_INTO = "Spoken into: say that again";
  static final String WORD_ALONE_STATUS = "called";
  static final String WRONG_HOST = "this page is only for a browser on this machine; open it at ";
  static final String WRONG_HOST_OF_LAN = "this page is at ";
  static final String WRONG_ORIGIN = "another site may not talk to Tallyback";

  static final String ALL_JOBS = "All jobs";
  static final String RECORD = "Record";
  static final String TRENDS = "From job to job";
  static final String TIMELINE = "Timeline";
  static final String REVIEW = "Review";
  static final String NO_DATA = "nothing is noted here yet, so that there is no job to show";

  static final String NO_PICTURE = "there is no such picture in this job";
  static final String NOT_PAIRED = "this device is not paired; open /pair";
  static final String TAKEN_AWAY = "this device was taken away on the machine; pair it again";
  static final String NO_KEYS =
      "Tallyback can't read its list of devices; its terminal says what to do";
  static final String CODE_WRONG =
      "That is not the code. Look at the terminal and type it once more.";
  static final String CODE_NONE =
      "No code is good at the moment: it was used, or it is older than ten minutes. Press Enter in"
          + " the terminal for a new one.";
  static final String CODE_SHUT =
      "Too many wrong codes. Press Enter in the terminal for a new one.";
  static final String CODE_SHUT_HERE =
      "five wrong codes: this one is no longer good; press Enter for a new one";

  private PageTexts() {}

  static String paired(String device) {
    return "paired: " + device + "; 'serve --forget " + device + "' takes it away again";
  }

  static String movedAway(URI page) {
    return page
        + ": this machine no longer has that address, so that no phone finds it; is it in its"
        + " network? If the address is another now, end this and start it again";
  }

  static String wrongCodeFrom(String address) {
    return "a wrong code came from " + address;
  }

  static MachineFailed taken(int port, Exception cause) {
    return new MachineFailed(
        "port "
            + port
            + " is taken by another program, maybe another 'serve'; end that, or choose another"
            + " with --port",
        cause);
  }

  static String movedApart(long seconds) {
    return "The clocks of this page and of the machine were apart by "
        + seconds
        + " s for a moment: times of entries about now may be wrong by that";
  }
}

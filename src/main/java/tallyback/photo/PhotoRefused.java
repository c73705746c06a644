package tallyback.photo;

/** A file that is no photo, or one that can't be used. The message says why, and what to do. */
public final class PhotoRefused extends Exception {

  private static final long serialVersionUID = 1L;

  /** Why. */
  public enum Why {
    /** Not a photo at all: a film, a text. */
    NO_PHOTO,
    /** A photo in a form that can't be unpacked here. */
    OTHER_FORM,
    /** A link; what it leads to may be anything. */
    LINK,
    /** It can't be read. */
    UNREADABLE,
    /** Its content is damaged or cut off. */
    BROKEN,
    /** The file, or the picture in it, is larger than any camera makes. */
    TOO_LARGE
  }

  private final Why why;

  PhotoRefused(Why why, String message) {
    super(message);
    this.why = why;
  }

  PhotoRefused(Why why, String message, Throwable cause) {
    super(message, cause);
    this.why = why;
  }

  /** Why. */
  public Why why() {
    return why;
  }

  /** What is wrong and what to do, in a line without the file's name. */
  public String told() {
    return String.valueOf(getMessage());
  }
}

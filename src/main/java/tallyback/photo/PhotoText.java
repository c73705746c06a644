package tallyback.photo;

import org.jspecify.annotations.Nullable;

/** What is said of files that can't be used. */
final class PhotoText {

  static final String LINK = "is a link, and links are not followed; copy the photo itself here";
  static final String NO_PHOTO = "is no photo";
  static final String EMPTY = "is empty; copy it from the camera again";
  static final String CUT_OFF = "ends too early; copy it from the camera again";
  static final String DAMAGED = "is damaged; copy it from the camera again";
  static final String COLOURS =
      "has colours for print or of another kind that can't be shown; export it as an ordinary JPEG";

  private PhotoText() {}

  static String otherForm(String form, @Nullable CameraTime time) {
    return "is "
        + form
        + (time == null ? "" : ", taken " + time.text().replace('T', ' ') + " by its camera")
        + ", which can't be shown here; export it as JPEG, with its date";
  }

  static String unreadable(Throwable cause) {
    return "can't be read ("
        + cause.getClass().getSimpleName()
        + "); check who may read it, or copy it elsewhere";
  }

  static String tooLong(long bytes) {
    return "has "
        + bytes / 1_000_000
        + " MB, more than "
        + PhotoHead.MOST_BYTES / 1_000_000
        + " MB; export it as a smaller JPEG";
  }

  static String tooManyPixels(long width, long height) {
    return "says that it has "
        + width
        + " by "
        + height
        + " pixels, more than can be unpacked safely; export it smaller";
  }
}

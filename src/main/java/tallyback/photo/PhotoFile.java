package tallyback.photo;

import java.nio.file.Path;
import org.jspecify.annotations.Nullable;

/**
 * A photo whose head was read; its picture was not unpacked yet.
 *
 * @param path where it lies
 * @param name its name below the folder that was looked through, as it is
 * @param form what it is by its content
 * @param storedWidth width in pixels as it is stored
 * @param storedHeight height in pixels as it is stored
 * @param orientation which way is up: 1 to 8, as Exif counts them
 * @param time when it was taken; null when that isn't in it
 */
public record PhotoFile(
    Path path,
    String name,
    Form form,
    int storedWidth,
    int storedHeight,
    int orientation,
    @Nullable CameraTime time) {

  /** Forms that can be unpacked. */
  public enum Form {
    /** ISO/IEC 10918-1. */
    JPEG("jpeg"),
    /** ISO/IEC 15948. */
    PNG("png");

    private final String called;

    Form(String called) {
      this.called = called;
    }

    /** What the platform's readers go by. */
    String called() {
      return called;
    }
  }

  /** Width in pixels when it is held upright. */
  public int widthPixels() {
    return orientation >= 5 ? storedHeight : storedWidth;
  }

  /** Height in pixels when it is held upright. */
  public int heightPixels() {
    return orientation >= 5 ? storedWidth : storedHeight;
  }
}

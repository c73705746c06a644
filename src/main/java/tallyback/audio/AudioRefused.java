package tallyback.audio;

import java.io.IOException;

/**
 * A sound file that cannot be heard, and what to do about it, in one line. Nothing of the file was
 * used.
 */
public final class AudioRefused extends IOException {

  private static final long serialVersionUID = 1L;

  private final String file;
  private final String expected;
  private final String found;
  private final String remedy;
  private final boolean otherKind;

  /**
   * Says where, what was expected, what was found and what to do.
   *
   * @param file the file as the user named it
   * @param expected what would have been heard
   * @param found what was there instead
   * @param remedy what to do
   */
  public AudioRefused(String file, String expected, String found, String remedy) {
    this(file, expected, found, remedy, false);
  }

  private AudioRefused(
      String file, String expected, String found, String remedy, boolean otherKind) {
    super(file + ": expected " + expected + ", found " + found + "; " + remedy);
    this.file = file;
    this.expected = expected;
    this.found = found;
    this.remedy = remedy;
    this.otherKind = otherKind;
  }

  /**
   * Of a WAV file that is whole as far as its header goes, and holds sound of another kind than is
   * heard here. The same facts as for any other.
   */
  static AudioRefused ofAnotherKind(String file, String expected, String found, String remedy) {
    return new AudioRefused(file, expected, found, remedy, true);
  }

  /** True for sound of another kind, which a converter may turn into what can be heard. */
  public boolean isOtherKind() {
    return otherKind;
  }

  /**
   * The file as the user named it.
   *
   * @return its name
   */
  public String file() {
    return file;
  }

  /**
   * What would have been heard.
   *
   * @return the expectation
   */
  public String expected() {
    return expected;
  }

  /**
   * What was there instead.
   *
   * @return the finding
   */
  public String found() {
    return found;
  }

  /**
   * What to do.
   *
   * @return the remedy
   */
  public String remedy() {
    return remedy;
  }
}

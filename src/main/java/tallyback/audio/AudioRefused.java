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

  /**
   * Says where, what was expected, what was found and what to do.
   *
   * @param file the file as the user named it
   * @param expected what would have been heard
   * @param found what was there instead
   * @param remedy what to do
   */
  public AudioRefused(String file, String expected, String found, String remedy) {
    super(file + ": expected " + expected + ", found " + found + "; " + remedy);
    this.file = file;
    this.expected = expected;
    this.found = found;
    this.remedy = remedy;
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

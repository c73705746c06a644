package tallyback.export;

import java.util.List;

/**
 * An export, and what is to be said about it.
 *
 * @param text all of it, to be written as UTF-8
 * @param parts how many entries, events, captions or chapters are in it
 * @param notices what was left out and why, one line each; usually none
 */
public record Written(String text, int parts, List<String> notices) {

  /** Copies the list. */
  public Written {
    notices = List.copyOf(notices);
  }
}

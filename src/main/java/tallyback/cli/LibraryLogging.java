package tallyback.cli;

import java.util.logging.Handler;
import java.util.logging.Level;
import java.util.logging.LogManager;
import java.util.logging.Logger;

/**
 * Keeps the libraries' own logging off the console: the recogniser's prints tables at every
 * utterance otherwise.
 */
final class LibraryLogging {

  /** Held, or the logger and its level would be collected. */
  private static final Logger ROOT = LogManager.getLogManager().getLogger("");

  private LibraryLogging() {}

  static void quieten() {
    // Said before any library asks for a logger: without a provider it would complain on the
    // console.
    System.setProperty("slf4j.internal.verbosity", "ERROR");
    ROOT.setLevel(Level.WARNING);
    for (Handler handler : ROOT.getHandlers()) {
      handler.setLevel(Level.OFF);
    }
  }
}

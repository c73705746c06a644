package tallyback.report.pdf;

import com.openhtmltopdf.util.Diagnostic;
import com.openhtmltopdf.util.XRLogger;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.jspecify.annotations.Nullable;

/** The library's warnings go where those of all libraries go, what it tells besides nowhere. */
final class LibraryMessages implements XRLogger {

  /** Held, or it would be collected. */
  private static final Logger LOGGER = Logger.getLogger("com.openhtmltopdf");

  @Override
  public void log(String where, Level level, String message) {
    log(where, level, message, null);
  }

  @Override
  public void log(String where, Level level, String message, @Nullable Throwable thrown) {
    if (level.intValue() >= Level.WARNING.intValue()) {
      LOGGER.log(level, where + ": " + message, thrown);
    }
  }

  @Override
  public void setLevel(String logger, Level level) {
    // What counts is set for all libraries in one place.
  }

  @Override
  public boolean isLogLevelEnabled(Diagnostic diagnostic) {
    return diagnostic.getLevel().intValue() >= Level.WARNING.intValue();
  }
}

package tallyback.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.logging.ErrorManager;
import java.util.logging.FileHandler;
import java.util.logging.Formatter;
import java.util.logging.Handler;
import java.util.logging.Level;
import java.util.logging.LogRecord;
import java.util.logging.Logger;
import org.jspecify.annotations.Nullable;

/**
 * Keeps the libraries' own logging off the console and puts their warnings into one rotating file,
 * {@code libraries.0.log}, the one before it {@code libraries.1.log}. The file is made with the
 * first warning; when it can't be written, warnings are dropped and the command goes on.
 *
 * <p>Thread rule: may be called from any thread. The virtual machine closes the file as it ends.
 */
final class LibraryLogging {

  static final int LIMIT_BYTES = 256 * 1024;
  private static final int GENERATIONS = 2;

  /**
   * Cut off from the root, as its adapter does too. Held, like the root, or logger and handlers
   * would be collected.
   */
  private static final Logger RECOGNISER = Logger.getLogger("edu.cmu.sphinx");

  private static final List<Logger> LOGGERS = List.of(Logger.getLogger(""), RECOGNISER);

  private LibraryLogging() {}

  /** Takes the libraries off the console. */
  static void quieten() {
    // Said before any library asks for a logger: without a provider it would complain on the
    // console.
    System.setProperty("slf4j.internal.verbosity", "ERROR");
    RECOGNISER.setUseParentHandlers(false);
    for (Logger logger : LOGGERS) {
      logger.setLevel(Level.WARNING);
      for (Handler handler : logger.getHandlers()) {
        if (!(handler instanceof LateFile)) {
          handler.setLevel(Level.OFF);
        }
      }
    }
  }

  /** From here on warnings go to the file in this folder. */
  static synchronized void into(Path folder) {
    stop();
    LateFile file = new LateFile(folder);
    LOGGERS.forEach(logger -> logger.addHandler(file));
  }

  /** Closes the file; what comes after is dropped. */
  static synchronized void stop() {
    for (Logger logger : LOGGERS) {
      for (Handler handler : logger.getHandlers()) {
        if (handler instanceof LateFile) {
          logger.removeHandler(handler);
          handler.close();
        }
      }
    }
  }

  /** The file, opened when there is something to write. */
  private static final class LateFile extends Handler {
    private final Path folder;
    private @Nullable FileHandler file;
    private boolean givenUp;

    LateFile(Path folder) {
      this.folder = folder;
      setLevel(Level.WARNING);
    }

    @Override
    public synchronized void publish(LogRecord record) {
      if (givenUp || !isLoggable(record)) {
        return;
      }
      try {
        opened().publish(record);
      } catch (IOException | SecurityException e) {
        givenUp = true;
      }
    }

    private FileHandler opened() throws IOException {
      if (file == null) {
        Files.createDirectories(folder);
        file =
            new FileHandler(
                folder.toString().replace("%", "%%") + "/libraries.%g.log",
                LIMIT_BYTES,
                GENERATIONS,
                true);
        file.setEncoding("UTF-8");
        file.setFormatter(new Line());
        file.setErrorManager(new Silent());
      }
      return file;
    }

    @Override
    public synchronized void flush() {
      if (file != null) {
        file.flush();
      }
    }

    @Override
    public synchronized void close() {
      if (file != null) {
        file.close();
        file = null;
      }
      givenUp = true;
    }
  }

  /** One line a record: time (UTC), weight, logger, message; then the trace, if there is one. */
  private static final class Line extends Formatter {
    @Override
    public String format(LogRecord record) {
      StringWriter text = new StringWriter();
      PrintWriter lines = new PrintWriter(text);
      lines.println(
          record.getInstant()
              + " "
              + record.getLevel().getName()
              + " "
              + record.getLoggerName()
              + ": "
              + String.join(" ", formatMessage(record).strip().lines().toList()));
      if (record.getThrown() != null) {
        record.getThrown().printStackTrace(lines);
      }
      lines.flush();
      return text.toString();
    }
  }

  /** A log that can't be written is no trouble of the user's. */
  private static final class Silent extends ErrorManager {
    @Override
    public synchronized void error(String message, Exception e, int code) {
      // Dropped: there is nowhere better to say it, and nothing of the job depends on it.
    }
  }
}

package tallyback.speech.program;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.nio.charset.StandardCharsets;

/** The last line that a program wrote to its standard error: mostly why it has ended. */
final class LastWords implements AutoCloseable {

  private static final int LONGEST = 200;
  private static final long WAIT_MS = 100;

  private final InputStream in;
  private final Thread thread;
  private volatile String line = "";

  LastWords(InputStream in) {
    this.in = in;
    thread = new Thread(this::read, "second-messages");
    thread.setDaemon(true);
    thread.start();
  }

  /** The line; waits a moment for one that is just being written. */
  String awaitLine() throws InterruptedException {
    thread.join(WAIT_MS);
    return line;
  }

  private void read() {
    try (Reader reader = new InputStreamReader(in, StandardCharsets.UTF_8)) {
      StringBuilder next = new StringBuilder();
      for (int each = reader.read(); each >= 0; each = reader.read()) {
        if (each == '\n') {
          keep(next);
        } else if (next.length() < LONGEST) {
          next.append((char) each);
        }
      }
      keep(next);
    } catch (IOException e) {
      // It was ended while it was read.
    }
  }

  private void keep(StringBuilder next) {
    String text = next.toString().replaceAll("\\p{Cntrl}", " ").strip();
    if (!text.isEmpty()) {
      line = text;
    }
    next.setLength(0);
  }

  @Override
  public void close() {
    thread.interrupt();
  }
}

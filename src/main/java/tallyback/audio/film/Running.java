package tallyback.audio.film;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.TimeUnit;
import tallyback.audio.AudioRefused;

/**
 * A program that runs, watched: it is ended when it shows no progress for too long, and whatever
 * happens it doesn't outlive {@link #close}. The one who started it reads what it prints; what it
 * says of errors is read beside that, and the last line kept.
 */
final class Running implements AutoCloseable {

  private static final int LONGEST_LINE = 200;
  private static final long LOOK_MS = 200;

  private final Process process;
  private final Duration patience;
  private final Thread messages;
  private final Thread watch;
  private volatile String lastWords = "";
  private volatile long lastProgressNs = System.nanoTime();
  private volatile boolean stuck;

  private Running(Process process, Duration patience) {
    this.process = process;
    this.patience = patience;
    messages = new Thread(this::readMessages, "film-messages");
    watch = new Thread(this::watch, "film-watch");
    messages.setDaemon(true);
    watch.setDaemon(true);
    messages.start();
    watch.start();
  }

  static Running start(String film, List<String> command, Duration patience, AudioRefused missing)
      throws IOException {
    Process process;
    try {
      process = new ProcessBuilder(command).start();
    } catch (IOException e) {
      missing.initCause(e);
      throw missing;
    }
    process.getOutputStream().close();
    return new Running(process, patience);
  }

  InputStream out() {
    return process.getInputStream();
  }

  void goesOn() {
    lastProgressNs = System.nanoTime();
  }

  /**
   * Waits for its end, which is near when it prints no more.
   *
   * @throws AudioRefused if it was stuck or says that something is wrong with the film
   */
  void end(String film, String wanted) throws IOException {
    try {
      boolean ended = process.waitFor(patience.toMillis(), TimeUnit.MILLISECONDS);
      messages.join(LOOK_MS);
      if (stuck || !ended) {
        throw new AudioRefused(
            film,
            "its sound",
            "no progress for " + patience.toSeconds() + " s",
            "look whether it lies on a disk that answers, and whether it plays");
      }
      if (process.exitValue() != 0) {
        throw new AudioRefused(
            film,
            wanted,
            lastWords.isEmpty() ? "something else" : "something else (\"" + lastWords + "\")",
            "does it play? save it again, or save its sound as 16-bit PCM WAV");
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IOException("interrupted while its sound was taken out", e);
    }
  }

  private void watch() {
    try {
      while (process.isAlive()) {
        Thread.sleep(LOOK_MS);
        if (System.nanoTime() - lastProgressNs > patience.toNanos()) {
          stuck = true;
          end();
        }
      }
    } catch (InterruptedException e) {
      // Closed: nobody waits any more.
    }
  }

  private void readMessages() {
    try (Reader reader = new InputStreamReader(process.getErrorStream(), StandardCharsets.UTF_8)) {
      StringBuilder line = new StringBuilder();
      for (int each = reader.read(); each >= 0; each = reader.read()) {
        if (each == '\n') {
          keep(line);
        } else if (line.length() < LONGEST_LINE) {
          line.append((char) each);
        }
      }
      keep(line);
    } catch (IOException e) {
      // It was ended while it was read.
    }
  }

  private void keep(StringBuilder line) {
    String text = line.toString().replaceAll("\\p{Cntrl}", " ").strip();
    if (!text.isEmpty()) {
      lastWords = text;
    }
    line.setLength(0);
  }

  /** What it started goes with it: as long as that lives, it could still print. */
  private void end() {
    List<ProcessHandle> children = process.descendants().toList();
    process.destroyForcibly();
    children.forEach(ProcessHandle::destroyForcibly);
  }

  @Override
  public void close() {
    end();
    watch.interrupt();
    messages.interrupt();
  }
}

package tallyback.speech.program;

import java.io.BufferedInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.TimeUnit;

/**
 * The lines that a program prints, read on a thread of their own so that nobody has to wait for
 * one. A few wait to be taken; a program that goes on printing then waits, too.
 */
final class Answers implements AutoCloseable {

  static final int LONGEST_LINE = 10_000;
  private static final int MOST_WAITING = 4;

  private final InputStream in;
  private final BlockingQueue<Line> lines = new ArrayBlockingQueue<>(MOST_WAITING);
  private final Thread thread;

  /** What a line is. */
  enum Kind {
    WORDS,
    TOO_LONG,
    LATE,
    NO_MORE
  }

  /**
   * A line.
   *
   * @param kind what it is
   * @param words what stands in it; empty for anything but words
   */
  record Line(Kind kind, String words) {

    Line(Kind kind) {
      this(kind, "");
    }
  }

  Answers(InputStream in) {
    this.in = in;
    thread = new Thread(this::read, "second-answers");
    thread.setDaemon(true);
    thread.start();
  }

  /** Whether a line waits; the end of all lines is one. */
  boolean isThereOne() {
    Line line = lines.peek();
    return line != null && line.kind() != Kind.NO_MORE;
  }

  Line next(Duration atMost) throws InterruptedException {
    Line line = lines.poll(atMost.toMillis(), TimeUnit.MILLISECONDS);
    return line == null ? new Line(Kind.LATE) : line;
  }

  private void read() {
    try (InputStream buffered = new BufferedInputStream(in)) {
      ByteArrayOutputStream line = new ByteArrayOutputStream();
      for (int each = buffered.read(); each >= 0; each = buffered.read()) {
        if (each == '\n') {
          lines.put(new Line(Kind.WORDS, text(line)));
          line.reset();
        } else if (line.size() >= LONGEST_LINE) {
          lines.put(new Line(Kind.TOO_LONG));
          return;
        } else {
          line.write(each);
        }
      }
      lines.put(new Line(Kind.NO_MORE));
    } catch (IOException e) {
      // It was ended while it was read.
      lines.offer(new Line(Kind.NO_MORE));
    } catch (InterruptedException e) {
      // Closed: nobody takes any more.
    }
  }

  private static String text(ByteArrayOutputStream line) {
    return line.toString(StandardCharsets.UTF_8).replaceAll("\\p{Cntrl}", " ").strip();
  }

  @Override
  public void close() {
    thread.interrupt();
  }
}

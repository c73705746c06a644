package tallyback.cli;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import tallyback.app.LiveJob;

/**
 * Each line on standard input, typed by hand or by a foot pedal, begins or ends what is held. Reads
 * it on a thread of its own, and not before it is needed. May be asked from any thread.
 */
final class Pedal implements LiveJob.Key {

  /** Standard input that has ended says so at once. */
  private static final int ENDS_WITHIN_MS = 100;

  private final CountDownLatch ended = new CountDownLatch(1);
  private @Nullable Thread reader;
  private volatile boolean held;

  /** Begins to read. */
  synchronized void listen() {
    if (reader == null) {
      Thread thread = new Thread(this::read, "pedal");
      thread.setDaemon(true);
      thread.start();
      reader = thread;
    }
  }

  private void read() {
    try (BufferedReader in =
        new BufferedReader(new InputStreamReader(System.in, StandardCharsets.UTF_8))) {
      while (in.readLine() != null) {
        held = !held;
      }
    } catch (IOException e) {
      // Nobody can press anything there any more.
    } finally {
      held = false;
      ended.countDown();
    }
  }

  @Override
  public boolean isHeld() {
    return held;
  }

  @Override
  public boolean isThere() {
    listen();
    held = false;
    try {
      return !ended.await(ENDS_WITHIN_MS, TimeUnit.MILLISECONDS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return false;
    }
  }
}

package tallyback.speech;

import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import tallyback.audio.Clip;

/**
 * Has a second recogniser listen beside the first, and never waits for it longer than a limit: what
 * comes later is no opinion, and neither is anything once it has failed. What is wrong with it is
 * told once.
 *
 * <p>Thread rule: {@link #ask} and {@link Asked#printed} belong to the thread of the first
 * recogniser. The second lives on a thread of its own, where it is opened, used and closed, and
 * where trouble is told. {@link #close} may be called from any thread and doesn't wait long.
 */
public final class SecondEar implements AutoCloseable {

  /** So often in a row it is too late before that is told. */
  private static final int LATE_IN_A_ROW = 5;

  private static final long CLOSE_WAIT_MS = 2000;

  private final Opener opener;
  private final Duration patience;
  private final Consumer<String> trouble;
  private final BlockingQueue<Question> waiting = new ArrayBlockingQueue<>(1);
  private final CountDownLatch opened = new CountDownLatch(1);
  private final Thread thread;
  private volatile boolean over;
  private @Nullable Question underWay;
  private int late;
  private boolean lateTold;

  /** Opens the second recogniser. */
  @FunctionalInterface
  public interface Opener {

    /**
     * Opens it; may take long.
     *
     * @return the recogniser, to be closed by the caller
     * @throws SecondFailed if it can't be opened
     * @throws InterruptedException if interrupted
     */
    SecondRecogniser open() throws SecondFailed, InterruptedException;
  }

  /** What was asked of one clip. */
  @FunctionalInterface
  public interface Asked {

    /**
     * What the second recogniser printed; waits for it as long as the limit allows, from this call
     * on.
     *
     * @return empty when it has said nothing by then
     */
    Optional<String> printed();
  }

  private record Question(Clip clip, CompletableFuture<String> answer) {}

  private SecondEar(Opener opener, Duration patience, Consumer<String> trouble) {
    this.opener = opener;
    this.patience = patience;
    this.trouble = trouble;
    thread = new Thread(this::run, "second-ear");
    thread.setDaemon(true);
  }

  /**
   * Starts; the recogniser is opened meanwhile, and what is asked until then has no answer.
   *
   * @param opener opens the recogniser
   * @param patience how long the first one waits for the second
   * @param trouble told in a line, once, when it can't hear, or not in time
   * @return an ear, to be closed
   */
  public static SecondEar start(Opener opener, Duration patience, Consumer<String> trouble) {
    SecondEar ear = new SecondEar(opener, patience, trouble);
    ear.thread.start();
    return ear;
  }

  /**
   * Waits until it hears, or never will.
   *
   * @param atMost how long
   * @return whether it hears
   * @throws InterruptedException if interrupted
   */
  public boolean awaitReady(Duration atMost) throws InterruptedException {
    return opened.await(atMost.toMillis(), TimeUnit.MILLISECONDS) && !over;
  }

  /**
   * Gives it a clip; whatever it was asked before and has not begun with is dropped. Never waits.
   *
   * @param clip one utterance
   * @return its answer to come
   */
  public Asked ask(Clip clip) {
    if (over || opened.getCount() > 0) {
      return Optional::empty;
    }
    dropWaiting();
    Question question = new Question(clip, new CompletableFuture<>());
    if (!waiting.offer(question)) {
      return Optional::empty;
    }
    return () -> answer(question);
  }

  private Optional<String> answer(Question question) {
    try {
      String printed = question.answer().get(patience.toMillis(), TimeUnit.MILLISECONDS);
      late = 0;
      return Optional.of(printed).filter(text -> !text.isBlank());
    } catch (TimeoutException e) {
      waiting.remove(question);
      tooLate();
    } catch (ExecutionException e) {
      // Told by the thread that it happened on.
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    return Optional.empty();
  }

  private void tooLate() {
    late++;
    if (late >= LATE_IN_A_ROW && !lateTold && !over) {
      lateTold = true;
      trouble.accept(
          "the second recogniser is too slow: "
              + late
              + " times it had no answer within "
              + patience.toMillis() / 1000.0
              + " s of the first; what comes too late doesn't count; take a smaller model");
    }
  }

  private void run() {
    try (SecondRecogniser recogniser = opener.open()) {
      opened.countDown();
      while (!over) {
        Question question = waiting.take();
        underWay = question;
        question.answer().complete(recogniser.hear(question.clip()));
      }
    } catch (SecondFailed e) {
      tell(String.valueOf(e.getMessage()));
    } catch (InterruptedException e) {
      // Closed: nothing more is wanted.
    } catch (RuntimeException | Error e) {
      // Whatever it is, a native part that doesn't fit included: the first one goes on hearing.
      tell("it has failed (" + e + ")");
    } finally {
      // What went wrong is told by now: whoever waits may end everything.
      over = true;
      opened.countDown();
      dropWaiting();
      Question question = underWay;
      if (question != null) {
        question.answer().complete("");
      }
    }
  }

  private void dropWaiting() {
    Question dropped = waiting.poll();
    if (dropped != null) {
      dropped.answer().complete("");
    }
  }

  private void tell(String what) {
    if (!over) {
      trouble.accept("second recogniser: " + what + "; hearing goes on with the first alone");
    }
  }

  @Override
  public void close() {
    over = true;
    thread.interrupt();
    try {
      thread.join(CLOSE_WAIT_MS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}

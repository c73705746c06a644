package tallyback.app;

import java.io.IOException;
import java.util.ArrayDeque;
import java.util.List;
import java.util.Queue;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import tallyback.audio.AudioRefused;

/**
 * Hears recordings ahead of the dialogue on two threads, each with an ear of its own, so that a
 * machine with two cores is done in little more than half the time. What comes out has the order of
 * the recordings; at most a few wait to be taken.
 *
 * <p>{@link #next} belongs to one thread. {@link #close} stops the hearing.
 */
final class HearAhead implements AutoCloseable {

  private static final int THREADS = 2;
  private static final int MOST_WAITING = 8;

  private final Queue<BlockingQueue<Object>> lanes = new ArrayDeque<>();
  private final List<Thread> threads;

  private HearAhead(List<Thread> threads) {
    this.threads = threads;
  }

  /** Starts hearing; recordings go to the threads in turn. */
  static HearAhead start(LoadedPlan plan, List<Demo.Recording> recordings) {
    List<Thread> threads = new java.util.ArrayList<>();
    HearAhead ahead = new HearAhead(threads);
    for (int lane = 0; lane < THREADS; lane++) {
      BlockingQueue<Object> results = new ArrayBlockingQueue<>(MOST_WAITING);
      int first = lane;
      Thread thread = new Thread(() -> hear(plan, recordings, first, results), "hearing-" + lane);
      thread.setDaemon(true);
      ahead.lanes.add(results);
      threads.add(thread);
    }
    threads.forEach(Thread::start);
    return ahead;
  }

  private static void hear(
      LoadedPlan plan, List<Demo.Recording> recordings, int first, BlockingQueue<Object> results) {
    try (Ear ear = Ear.open(plan, null)) {
      for (int i = first; i < recordings.size(); i += THREADS) {
        results.put(RecordedSound.hearAhead(recordings.get(i).file(), ear));
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    } catch (IOException | RuntimeException e) {
      offerFault(results, e);
    }
  }

  private static void offerFault(BlockingQueue<Object> results, Exception fault) {
    try {
      results.put(fault);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  /**
   * The utterances of the next recording; waits for them.
   *
   * @throws AudioRefused if it isn't sound that can be heard
   * @throws IOException if it can't be read
   */
  @SuppressWarnings("unchecked")
  List<RecordedSound.HeardAhead> next() throws IOException {
    BlockingQueue<Object> lane = lanes.remove();
    lanes.add(lane);
    Object result;
    try {
      result = lane.take();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IOException("the hearing was interrupted", e);
    }
    if (result instanceof IOException fault) {
      throw fault;
    }
    if (result instanceof RuntimeException fault) {
      throw fault;
    }
    return (List<RecordedSound.HeardAhead>) result;
  }

  @Override
  public void close() {
    threads.forEach(Thread::interrupt);
  }
}

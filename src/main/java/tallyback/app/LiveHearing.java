package tallyback.app;

import java.util.List;
import java.util.Optional;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import tallyback.audio.Clip;
import tallyback.audio.Cut;
import tallyback.audio.Cutter;
import tallyback.audio.CutterSettings;

/**
 * Hears a stream of sound as it comes in: samples go in, utterances come out in order, each with
 * what was heard. Clips and hearings are those of the same sound heard as a recording.
 *
 * <p>The recogniser works on whole clips, and it works while the speaker pauses: as soon as a pause
 * has lasted so long that the clip can't change any more unless speech goes on, the clip is
 * decoded, and when the pause is long enough to end the utterance the result is mostly there. If
 * speech goes on, that result is dropped. So what comes after the end of the pause is only that
 * part of the decoding which takes longer than about a quarter of a second; long utterances have
 * one.
 *
 * <p>Thread rule: {@link #accept} and {@link #finish} belong to one thread, {@link #next} to
 * another one; the ear lives on a thread of its own. {@link #accept} waits when hearing is several
 * utterances behind, and hearing waits when nobody takes what was heard: nothing is lost, however
 * fast the sound comes in. {@link #close} may be called from any thread; it waits for the clip that
 * is being decoded, and what was not taken by then is gone: {@link #finish} and take all of it
 * first.
 */
public final class LiveHearing implements AutoCloseable {

  private static final int MOST_CUTS = 32;
  private static final int MOST_CAUGHT = 16;

  /** How often a thread that waits looks whether there is still anything to wait for. */
  private static final int LOOK_MS = 50;

  private final Cutter cutter = new Cutter(CutterSettings.defaults());
  private final BlockingQueue<Step> steps = new ArrayBlockingQueue<>(MOST_CUTS);
  private final BlockingQueue<Caught> caught = new ArrayBlockingQueue<>(MOST_CAUGHT);
  private final AtomicLong decodes = new AtomicLong();
  private final AtomicLong decodesInVain = new AtomicLong();
  private final Thread thread;
  private volatile boolean closed;
  private volatile boolean done;
  private volatile @Nullable Throwable fault;
  private boolean finished;

  /**
   * An utterance.
   *
   * @param clip its sound, and where it lies in the stream
   * @param heard what was heard as an entry
   * @param afterEndNanos how long after the end of the utterance was known the result was there
   */
  public record Caught(Clip clip, Ear.Heard heard, long afterEndNanos) {}

  /** Whatever listens to clips; lives on one thread. */
  interface Listener extends AutoCloseable {
    Ear.Heard entry(Clip clip);

    @Override
    void close();
  }

  /** What the cutter said, and when; null: the stream has ended. */
  private record Step(@Nullable Cut cut, long atNanos) {}

  /** A clip that was decoded before its utterance has ended. */
  private record Ahead(Clip clip, Ear.Heard heard) {}

  private LiveHearing(Supplier<Listener> opener) {
    thread = new Thread(() -> run(opener), "hearing-live");
    thread.setDaemon(true);
  }

  /**
   * Starts to hear a stream; the models are read meanwhile.
   *
   * @param plan what may be said
   * @param attention a word that every entry must begin with, or null for none
   * @throws WrongUse if the attention word has no pronunciation
   */
  public static LiveHearing start(LoadedPlan plan, @Nullable String attention) {
    Ear.requireKnown(plan, attention);
    return start(
        () -> {
          Ear ear = Ear.open(plan, attention);
          return new Listener() {
            @Override
            public Ear.Heard entry(Clip clip) {
              return ear.entry(clip);
            }

            @Override
            public void close() {
              ear.close();
            }
          };
        });
  }

  /** Starts with another listener, which is opened, used and closed on one thread. */
  static LiveHearing start(Supplier<Listener> opener) {
    LiveHearing hearing = new LiveHearing(opener);
    hearing.thread.start();
    return hearing;
  }

  /**
   * Takes the next samples.
   *
   * @param samples 16 kHz mono
   * @param count how many of them, from the beginning of the array
   * @throws MachineFailed if the hearing has failed
   * @throws IllegalStateException after {@link #finish} or {@link #close}
   * @throws InterruptedException if interrupted while it waits
   */
  public void accept(short[] samples, int count) throws InterruptedException {
    if (finished) {
      throw new IllegalStateException("the stream has been finished");
    }
    hand(cutter.follow(samples, count));
  }

  /**
   * Ends the stream: what has been spoken of the last utterance is heard, too. A second call does
   * nothing.
   *
   * @throws MachineFailed if the hearing has failed
   * @throws InterruptedException if interrupted while it waits
   */
  public void finish() throws InterruptedException {
    if (!finished) {
      finished = true;
      hand(cutter.finishFollowing());
      hand((Cut) null);
    }
  }

  private void hand(List<Cut> cuts) throws InterruptedException {
    requireUsable();
    for (Cut cut : cuts) {
      hand(cut);
    }
  }

  private void hand(@Nullable Cut cut) throws InterruptedException {
    Step step = new Step(cut, System.nanoTime());
    while (!steps.offer(step, LOOK_MS, TimeUnit.MILLISECONDS)) {
      requireUsable();
    }
  }

  private void requireUsable() {
    requireNoFault();
    if (closed) {
      throw new IllegalStateException("the hearing has been closed");
    }
  }

  private void requireNoFault() {
    Throwable failed = fault;
    if (failed instanceof WrongUse refused) {
      throw refused;
    }
    if (failed != null) {
      throw new MachineFailed(
          "hearing has stopped (" + failed.getMessage() + "); start listening again", failed);
    }
  }

  /**
   * The next utterance; waits for it.
   *
   * @return empty once the stream is finished and everything was taken, or when this was closed
   * @throws MachineFailed if the hearing has failed
   * @throws InterruptedException if interrupted while it waits
   */
  public Optional<Caught> next() throws InterruptedException {
    while (true) {
      boolean nothingMoreComes = done;
      Caught next = caught.poll(nothingMoreComes ? 0 : LOOK_MS, TimeUnit.MILLISECONDS);
      if (next != null) {
        return Optional.of(next);
      }
      requireNoFault();
      if (nothingMoreComes) {
        return Optional.empty();
      }
    }
  }

  /** How many clips have been decoded. */
  public long decodes() {
    return decodes.get();
  }

  /** How many of them in vain, because speech went on. */
  public long decodesInVain() {
    return decodesInVain.get();
  }

  private void run(Supplier<Listener> opener) {
    try (Listener listener = opener.get()) {
      hear(listener);
    } catch (InterruptedException e) {
      // Closed: nothing more is wanted.
    } catch (RuntimeException | Error e) {
      fault = closed ? null : e;
    } finally {
      done = true;
    }
  }

  private void hear(Listener listener) throws InterruptedException {
    Ahead ahead = null;
    while (!closed) {
      Step step = steps.take();
      if (step.cut() == null) {
        return;
      } else if (step.cut() instanceof Cut.Likely likely) {
        if (!isVoid()) {
          ahead = new Ahead(likely.clip(), decode(listener, likely.clip()));
        }
      } else if (step.cut() instanceof Cut.WentOn) {
        decodesInVain.addAndGet(ahead == null ? 0 : 1);
        ahead = null;
      } else if (step.cut() instanceof Cut.Ended ended) {
        Ear.Heard heard =
            ahead != null && ended.clip().equals(ahead.clip())
                ? ahead.heard()
                : decode(listener, ended.clip());
        ahead = null;
        caught.put(new Caught(ended.clip(), heard, System.nanoTime() - step.atNanos()));
      }
    }
  }

  /** Whether speech is known to have gone on after the likely end that was just taken. */
  private boolean isVoid() {
    Step next = steps.peek();
    return next != null && next.cut() instanceof Cut.WentOn;
  }

  private Ear.Heard decode(Listener listener, Clip clip) {
    decodes.incrementAndGet();
    return listener.entry(clip);
  }

  @Override
  public void close() {
    closed = true;
    thread.interrupt();
    boolean interrupted = false;
    while (thread.isAlive()) {
      try {
        thread.join();
      } catch (InterruptedException e) {
        interrupted = true;
      }
    }
    caught.clear();
    if (interrupted) {
      Thread.currentThread().interrupt();
    }
  }
}

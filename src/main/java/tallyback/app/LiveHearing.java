package tallyback.app;

import java.util.List;
import java.util.Optional;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import tallyback.audio.Clip;
import tallyback.audio.Cut;
import tallyback.audio.Cutter;
import tallyback.audio.CutterSettings;
import tallyback.log.LogFailed;
import tallyback.log.LogRefused;

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
 *
 * @param <T> what becomes of an utterance
 */
public final class LiveHearing<T> implements AutoCloseable {

  private static final int MOST_CUTS = 32;
  private static final int MOST_CAUGHT = 16;

  private static final Clip NOTHING_SAID = new Clip(new short[0], 0);

  /** How often a thread that waits looks whether there is still anything to wait for. */
  private static final int LOOK_MS = 50;

  private final Cutter cutter = new Cutter(CutterSettings.defaults());
  private final BlockingQueue<Step> steps = new ArrayBlockingQueue<>(MOST_CUTS);
  private final BlockingQueue<Caught<T>> caught = new ArrayBlockingQueue<>(MOST_CAUGHT);
  private final AtomicInteger untaken = new AtomicInteger();
  private final AtomicLong decodes = new AtomicLong();
  private final AtomicLong decodesInVain = new AtomicLong();
  private final Thread thread;
  private volatile boolean closed;
  private volatile boolean done;
  private volatile @Nullable Throwable fault;
  private final Object ending = new Object();
  private volatile boolean finished;

  /**
   * An utterance.
   *
   * @param <T> what becomes of one
   * @param clip its sound, and where it lies in the stream
   * @param heard what became of it
   * @param afterEndNanos how long after the end of the utterance was known the result was there
   */
  public record Caught<T>(Clip clip, T heard, long afterEndNanos) {}

  /**
   * Whatever listens to clips; lives on one thread.
   *
   * @param <H> what it hears
   * @param <T> what becomes of that
   */
  interface Listener<H, T> extends AutoCloseable {

    /** Listens to a clip, and changes nothing: more may be said. */
    H hear(Clip clip);

    /** Takes what was heard of an utterance that has ended, before the next is listened to. */
    T take(Clip clip, H heard);

    /** Nothing was said for a while; called again and again until something is. */
    default void idle() {}

    @Override
    void close();
  }

  /** What the cutter said, and when; null: the stream has ended. */
  private record Step(@Nullable Cut cut, long atNanos, @Nullable Supplier<?> errand) {

    Step(@Nullable Cut cut, long atNanos) {
      this(cut, atNanos, null);
    }
  }

  /** A clip that was decoded before its utterance has ended. */
  private record Ahead<H>(Clip clip, H heard) {}

  private <H> LiveHearing(Supplier<? extends Listener<H, T>> opener) {
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
  public static LiveHearing<Ear.Heard> start(LoadedPlan plan, @Nullable String attention) {
    Ear.requireKnown(plan, attention);
    return start(
        () -> {
          Ear ear = Ear.open(plan, attention);
          return new Listener<Ear.Heard, Ear.Heard>() {
            @Override
            public Ear.Heard hear(Clip clip) {
              return ear.entry(clip);
            }

            @Override
            public Ear.Heard take(Clip clip, Ear.Heard heard) {
              return heard;
            }

            @Override
            public void close() {
              ear.close();
            }
          };
        });
  }

  /** Starts with another listener, which is opened, used and closed on one thread. */
  static <H, T> LiveHearing<T> start(Supplier<? extends Listener<H, T>> opener) {
    LiveHearing<T> hearing = new LiveHearing<>(opener);
    hearing.thread.start();
    return hearing;
  }

  /**
   * Takes the next samples.
   *
   * @param samples 16 kHz mono
   * @param count how many of them, from the beginning of the array
   * @throws MachineFailed if the hearing has failed; what the log or the plan refused is thrown as
   *     it is
   * @throws IllegalStateException after {@link #finish} or {@link #close}
   * @throws InterruptedException if interrupted while it waits
   */
  public void accept(short[] samples, int count) throws InterruptedException {
    if (finished) {
      throw new IllegalStateException("the stream has been finished");
    }
    hand(cutter.follow(samples, count));
  }

  /** Whether somebody is speaking; for the thread of {@link #accept}. */
  public boolean isSpeechUnderWay() {
    return cutter.isUnderWay();
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
      synchronized (ending) {
        finished = true;
      }
      hand(cutter.finishFollowing());
      hand((Cut) null);
    }
  }

  /**
   * Has something done on the thread of the hearing, behind the utterances that have ended by now;
   * what becomes of it comes out of {@link #next} with an empty clip. May be called from any
   * thread.
   *
   * @return false when too much waits there already, or the stream has been finished; nothing is
   *     done then
   * @throws MachineFailed if the hearing has failed
   * @throws IllegalStateException after {@link #close}
   */
  boolean errand(Supplier<T> work) {
    requireUsable();
    synchronized (ending) {
      // Behind the end nothing would be done any more.
      return !finished && steps.offer(new Step(null, System.nanoTime(), work));
    }
  }

  /** Whether every utterance that has ended was taken; for the thread of {@link #accept}. */
  boolean isIdle() {
    return untaken.get() == 0;
  }

  private void hand(List<Cut> cuts) throws InterruptedException {
    requireUsable();
    for (Cut cut : cuts) {
      hand(cut);
    }
  }

  private void hand(@Nullable Cut cut) throws InterruptedException {
    Step step = new Step(cut, System.nanoTime());
    untaken.addAndGet(cut instanceof Cut.Ended ? 1 : 0);
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
    if (failed instanceof WrongUse || failed instanceof LogRefused || failed instanceof LogFailed) {
      throw (RuntimeException) failed;
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
  public Optional<Caught<T>> next() throws InterruptedException {
    while (true) {
      boolean nothingMoreComes = done;
      Caught<T> next = caught.poll(nothingMoreComes ? 0 : LOOK_MS, TimeUnit.MILLISECONDS);
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

  private <H> void run(Supplier<? extends Listener<H, T>> opener) {
    try (Listener<H, T> listener = opener.get()) {
      hear(listener);
    } catch (InterruptedException e) {
      // Closed: nothing more is wanted.
    } catch (RuntimeException | Error e) {
      fault = closed ? null : e;
    } finally {
      done = true;
    }
  }

  private <H> void hear(Listener<H, T> listener) throws InterruptedException {
    Ahead<H> ahead = null;
    while (!closed) {
      Step step = steps.poll(LOOK_MS, TimeUnit.MILLISECONDS);
      if (step == null) {
        listener.idle();
        continue;
      }
      Supplier<?> errand = step.errand();
      if (errand != null) {
        @SuppressWarnings("unchecked") // only errand() puts one in
        Supplier<T> work = (Supplier<T>) errand;
        caught.put(new Caught<>(NOTHING_SAID, work.get(), System.nanoTime() - step.atNanos()));
      } else if (step.cut() == null) {
        return;
      } else if (step.cut() instanceof Cut.Likely likely) {
        if (!isVoid()) {
          ahead = new Ahead<>(likely.clip(), decode(listener, likely.clip()));
        }
      } else if (step.cut() instanceof Cut.WentOn) {
        decodesInVain.addAndGet(ahead == null ? 0 : 1);
        ahead = null;
      } else if (step.cut() instanceof Cut.Ended ended) {
        H heard =
            ahead != null && ended.clip().equals(ahead.clip())
                ? ahead.heard()
                : decode(listener, ended.clip());
        ahead = null;
        long afterEnd = System.nanoTime() - step.atNanos();
        T taken = listener.take(ended.clip(), heard);
        untaken.decrementAndGet();
        caught.put(new Caught<>(ended.clip(), taken, afterEnd));
      }
    }
  }

  /** Whether speech is known to have gone on after the likely end that was just taken. */
  private boolean isVoid() {
    Step next = steps.peek();
    return next != null && next.cut() instanceof Cut.WentOn;
  }

  private <H> H decode(Listener<H, T> listener, Clip clip) {
    decodes.incrementAndGet();
    return listener.hear(clip);
  }

  @Override
  public void close() {
    closed = true;
    ThreadEnd.interruptAndAwait(thread);
    caught.clear();
  }
}

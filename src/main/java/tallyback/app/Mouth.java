package tallyback.app;

import java.time.Duration;
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import tallyback.audio.Clip;
import tallyback.audio.Cues;
import tallyback.audio.Loudness;
import tallyback.audio.SoundOut;
import tallyback.voice.Voice;

/**
 * Says things aloud, one after the other, and never into somebody's words: it waits until nobody
 * speaks.
 *
 * <p>Thread rule: all methods may be called from any thread; voice and loudspeaker are used on a
 * thread of its own, and closed there.
 */
final class Mouth implements AutoCloseable {

  private static final int LOOK_MS = 20;

  /** Whoever never stops speaking is spoken into after all: a question must be put some time. */
  private static final long LONGEST_WAIT_NANOS = Duration.ofSeconds(10).toNanos();

  /** Clearly heard as louder or softer; a choice of our own, no source. */
  private static final int STEP_DB = 4;

  /** Beyond this peaks are pressed so much that words suffer. */
  private static final int LOUDEST_DB = 12;

  /** Softer than this it is as good as silent in a workshop. */
  private static final int SOFTEST_DB = -20;

  private final AtomicInteger gainDb = new AtomicInteger();
  private final Queue<Line> lines = new ConcurrentLinkedQueue<>();
  private final Thread thread;
  private volatile boolean closed;
  private volatile boolean somebodySpeaks;
  private volatile @Nullable Line playing;
  private volatile @Nullable RuntimeException fault;

  /**
   * Something to be said.
   *
   * @param cue the sound before it
   * @param text the words; may be empty
   * @param said run when it was said or stopped
   * @param hushed whether somebody wants it to stop
   */
  private record Line(Cues.Cue cue, String text, Runnable said, AtomicBoolean hushed) {

    /** A sound alone asks somebody to speak: who speaks already needs none. */
    boolean isSignal() {
      return text.isEmpty();
    }
  }

  private Mouth(Supplier<Voice> voice, Supplier<SoundOut> out) {
    thread = new Thread(() -> run(voice, out), "mouth");
    thread.setDaemon(true);
  }

  /** Starts; voice and loudspeaker are opened meanwhile. */
  static Mouth start(Supplier<Voice> voice, Supplier<SoundOut> out) {
    Mouth mouth = new Mouth(voice, out);
    mouth.thread.start();
    return mouth;
  }

  /**
   * Says something as soon as what is to be said before is said, and nobody speaks.
   *
   * @throws MachineFailed if nothing can be said any more
   */
  void say(Cues.Cue cue, String text, Runnable said) {
    requireUsable();
    lines.add(new Line(cue, text, said, new AtomicBoolean()));
  }

  /** Gives a sound and says nothing, unless somebody speaks then. */
  void signal(Cues.Cue cue) {
    say(cue, "", () -> {});
  }

  /**
   * Checks that something can still be said.
   *
   * @throws MachineFailed if not
   */
  void requireUsable() {
    RuntimeException failed = fault;
    if (failed != null) {
      throw new MachineFailed(
          "nothing can be said aloud (" + failed.getMessage() + "); start again, or use --silent",
          failed);
    }
  }

  /** Whether sound comes out. What is recorded meanwhile holds it. */
  boolean isSpeaking() {
    return playing != null;
  }

  /** Whether there is anything left to say. */
  boolean isDone() {
    return fault != null || lines.isEmpty();
  }

  /** Tells it whether somebody speaks. */
  void somebodySpeaks(boolean speaks) {
    somebodySpeaks = speaks;
  }

  /**
   * Speaks louder from the next thing on.
   *
   * @return false if it can't
   */
  boolean louder() {
    return turn(STEP_DB);
  }

  /**
   * Speaks softer from the next thing on.
   *
   * @return false if it would hardly be heard
   */
  boolean quieter() {
    return turn(-STEP_DB);
  }

  private boolean turn(int byDb) {
    int before = gainDb.get();
    int now = Math.max(SOFTEST_DB, Math.min(LOUDEST_DB, before + byDb));
    gainDb.set(now);
    return now != before;
  }

  /** Stops what is being said. */
  void hush() {
    Line line = playing;
    if (line != null) {
      line.hushed().set(true);
    }
  }

  private void run(Supplier<Voice> voices, Supplier<SoundOut> outs) {
    try (Voice voice = voices.get();
        SoundOut out = outs.get()) {
      while (!closed) {
        Line line = lines.peek();
        if (line == null) {
          Thread.sleep(LOOK_MS);
        } else {
          say(line, voice, out);
          lines.remove();
        }
      }
    } catch (InterruptedException e) {
      // Closed: nothing more is to be said.
    } catch (RuntimeException e) {
      fault = e;
    } finally {
      playing = null;
    }
  }

  private void say(Line line, Voice voice, SoundOut out) throws InterruptedException {
    if (line.isSignal() && somebodySpeaks) {
      return;
    }
    Clip words = line.isSignal() ? new Clip(new short[0], 0) : voice.speak(line.text());
    Clip sound = Loudness.changed(Cues.before(line.cue(), words), gainDb.get());
    long waitedSince = System.nanoTime();
    while (somebodySpeaks && System.nanoTime() - waitedSince < LONGEST_WAIT_NANOS) {
      Thread.sleep(LOOK_MS);
    }
    playing = line;
    try {
      out.play(sound, () -> !line.hushed().get());
    } finally {
      playing = null;
      line.said().run();
    }
  }

  @Override
  public void close() {
    closed = true;
    hush();
    ThreadEnd.interruptAndAwait(thread);
  }
}

package tallyback.app;

import java.time.Duration;
import java.time.Instant;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;
import tallyback.audio.Clip;

/**
 * A spoken memo that is being taken: what is said is put together as sound, with its pauses, and
 * never heard as an entry. Bounded by {@link #LONGEST}. One thread.
 */
final class OpenMemo {

  /** No memo is longer: who has more to say begins another. */
  static final Duration LONGEST = Duration.ofSeconds(60);

  /** Who pauses for longer has finished. Common practice, no source. */
  static final Duration PAUSE = Duration.ofMillis(2500);

  /** After "memo" alone it is waited for so long. Common practice, no source. */
  static final Duration TO_BEGIN = Duration.ofSeconds(6);

  /** Speech is noticed a little after it has begun. */
  private static final Duration NOTICED = Duration.ofMillis(500);

  private static final int SAMPLES_IN_MS = Clip.SAMPLE_RATE_HZ / 1000;

  private final String id;
  private final Instant begin;
  private final @Nullable String subject;
  private final long startMs;
  private short[] samples = new short[0];
  private Instant end;
  private long endMs;

  /**
   * A memo of which nothing was said yet.
   *
   * @param id names what began it, so that a retry notes nothing twice
   * @param begin when that began
   * @param spoken the words that began it, and where they lie in the stream
   * @param subject plan id of what it gives a name to, or null
   */
  OpenMemo(String id, Instant begin, Clip spoken, @Nullable String subject) {
    this.id = id;
    this.subject = subject;
    this.begin = begin;
    startMs = spoken.startMs();
    endMs = spoken.endMs();
    end = begin.plusMillis(spoken.durationMs());
  }

  String id() {
    return id;
  }

  /** Plan id of what it gives a name to, or null. */
  @Nullable String subject() {
    return subject;
  }

  Instant begin() {
    return begin;
  }

  /** Where it begins in its stream, in ms. */
  long startMs() {
    return startMs;
  }

  /** Where what was said last ends in its stream, in ms. */
  long endMs() {
    return endMs;
  }

  /** When what was said last ended. */
  Instant end() {
    return end;
  }

  boolean isEmpty() {
    return samples.length == 0;
  }

  /** Whether what begins then belongs to it. */
  boolean takes(Instant when) {
    return !when.isAfter(end.plus(isEmpty() ? TO_BEGIN : PAUSE));
  }

  /** Whether it is over, when nobody speaks. */
  boolean isOver(Instant now) {
    return !takes(now.minus(NOTICED));
  }

  /** Whether no more goes in. */
  boolean isFull() {
    return samples.length >= mostSamples();
  }

  private static int mostSamples() {
    return (int) LONGEST.toMillis() * SAMPLES_IN_MS;
  }

  /**
   * Adds what was said, with the pause before it; what is too much is left out.
   *
   * @param when when it began
   */
  void add(Clip clip, Instant when) {
    int pause =
        isEmpty() ? 0 : (int) Math.max(0, Duration.between(end, when).toMillis()) * SAMPLES_IN_MS;
    int from = Math.min(mostSamples(), samples.length + pause);
    int count = Math.min(clip.length(), mostSamples() - from);
    samples = Arrays.copyOf(samples, from + count);
    System.arraycopy(clip.samples(), 0, samples, from, count);
    end = when.plusMillis(clip.durationMs());
    endMs = clip.endMs();
  }

  /** All that was said. */
  Clip sound() {
    return new Clip(samples, startMs);
  }

  /** How long it is, in whole seconds, at least one. */
  int seconds() {
    return Math.max(1, Math.round(samples.length / (float) Clip.SAMPLE_RATE_HZ));
  }
}

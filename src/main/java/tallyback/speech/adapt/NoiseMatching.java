package tallyback.speech.adapt;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import tallyback.audio.Clip;
import tallyback.audio.NoiseKeeper;
import tallyback.speech.Recogniser;

/**
 * Learns the noises of a shop while somebody works in it: listens between utterances, and when the
 * noise is none it knows, learns it on a thread of its own, at a fifth of one core in the mean. A
 * few noises are kept, so that a compressor may come and go.
 *
 * <p>Thread rule: {@link #add} belongs to the thread of the sound, {@link #news} to the owner of
 * the recogniser, {@link #heard} to any. {@link #close} ends the learning.
 */
public final class NoiseMatching implements AutoCloseable {

  /** How many recordings of known words a noise is learned and checked on. */
  public static final int LESSONS = 50;

  private static final int KEPT_MS = 20_000;

  /** So much of a noise must have been heard. */
  private static final int LEAST_MS = 4_000;

  /** Above it theory alone is as good. */
  private static final double CLEAR_DB = 25;

  /** Below it nothing is learned: nobody can be understood. */
  private static final double HOPELESS_DB = 3;

  private static final int MOST_NOISES = 4;
  private static final int UTTERANCES = 5;
  private static final long LOOK_MS = 1_000;

  /** Of one core, in the mean. */
  private static final double SHARE = 0.2;

  /** Enough to learn a noise at once when a machine is switched on. */
  private static final long SAVED_NANOS = 20_000_000_000L;

  private static final ThreadMXBean THREADS = ManagementFactory.getThreadMXBean();

  private final NoiseKeeper keeper = new NoiseKeeper(KEPT_MS);
  private final Supplier<NoiseLearner> opener;
  private final long lookMs;
  private final Deque<Double> ratios = new ArrayDeque<>();
  private final Deque<NoiseModel> learned = new ArrayDeque<>();
  private final AtomicReference<@Nullable News> news = new AtomicReference<>();
  private final Thread thread = new Thread(this::run, "noise-matching");
  private final Budget budget = new Budget(SHARE, SAVED_NANOS);
  private long workedNanos;
  private long atNanos;

  /**
   * What came of a noise that was learned.
   *
   * @param useful what is to be used from now on: what was better on speech that was held back
   * @param last how the newest did there, whether it is among them or not
   */
  public record News(List<NoiseModel> useful, NoiseModel.Check last) {

    /** Copies the list. */
    public News {
      useful = List.copyOf(useful);
    }
  }

  private NoiseMatching(Supplier<NoiseLearner> opener, long lookMs) {
    this.opener = opener;
    this.lookMs = lookMs;
    thread.setDaemon(true);
  }

  /**
   * Starts.
   *
   * @param opener opens the learner, on the thread that learns, when there is first something to
   *     learn
   */
  public static NoiseMatching start(Supplier<NoiseLearner> opener) {
    return start(opener, LOOK_MS);
  }

  /** Starts one that looks for something new at another interval. */
  static NoiseMatching start(Supplier<NoiseLearner> opener, long lookMs) {
    NoiseMatching matching = new NoiseMatching(opener, lookMs);
    matching.thread.start();
    return matching;
  }

  /**
   * Takes the next samples of the sound.
   *
   * @param samples 16 kHz mono
   * @param count how many of them
   * @param speech whether somebody is speaking
   */
  public void add(short[] samples, int count, boolean speech) {
    keeper.add(samples, count, speech);
  }

  /**
   * An utterance was heard.
   *
   * @param snrDb how far it stood above the noise
   */
  public void heard(double snrDb) {
    if (Double.isNaN(snrDb)) {
      return;
    }
    synchronized (ratios) {
      ratios.add(snrDb);
      if (ratios.size() > UTTERANCES) {
        ratios.remove();
      }
    }
  }

  /**
   * What is to be given to {@link Recogniser#use} before the next clip; empty when nothing is new.
   */
  public Optional<News> news() {
    return Optional.ofNullable(news.getAndSet(null));
  }

  private void run() {
    atNanos = System.nanoTime();
    try {
      NoiseLearner learner = null;
      while (true) {
        Thread.sleep(lookMs);
        Clip noise = keeper.noise();
        double snrDb = ratio();
        if (noise.durationMs() < LEAST_MS || !(snrDb < CLEAR_DB) || snrDb < HOPELESS_DB) {
          continue;
        }
        if (learner == null) {
          learner = opener.get();
          rest();
        }
        if (!isKnown(learner, noise, snrDb)) {
          learner.learn(noise, snrDb, this::rest).ifPresent(this::keep);
        }
        rest();
      }
    } catch (InterruptedException e) {
      // Closed: nothing more is wanted.
    }
  }

  private boolean isKnown(NoiseLearner learner, Clip noise, double snrDb) {
    for (NoiseModel model : learned) {
      if (learner.isLike(model, noise, snrDb)) {
        // The one in use is the last to be forgotten.
        learned.remove(model);
        learned.addLast(model);
        return true;
      }
    }
    return false;
  }

  private void keep(NoiseModel model) {
    learned.addLast(model);
    if (learned.size() > MOST_NOISES) {
      learned.removeFirst();
    }
    keeper.forget();
    news.set(
        new News(learned.stream().filter(each -> each.check().isBetter()).toList(), model.check()));
  }

  /** The median of the latest utterances; no number when there was none. */
  private double ratio() {
    synchronized (ratios) {
      List<Double> sorted = ratios.stream().sorted().toList();
      return sorted.isEmpty() ? Double.NaN : sorted.get(sorted.size() / 2);
    }
  }

  private void rest() throws InterruptedException {
    long worked = THREADS.getCurrentThreadCpuTime();
    long at = System.nanoTime();
    long rest = budget.restNanos(at - atNanos, worked - workedNanos);
    workedNanos = worked;
    atNanos = at;
    Thread.sleep(rest / 1_000_000);
  }

  @Override
  public void close() {
    thread.interrupt();
  }
}

package tallyback.app;

import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentSkipListMap;
import java.util.function.BooleanSupplier;
import org.jspecify.annotations.Nullable;
import tallyback.audio.Clip;
import tallyback.audio.RoomBands;

/**
 * Which of the sound that comes in is listened to: none while the tool itself speaks, none while
 * the key is not held. Knows when what was listened to was said.
 *
 * <p>Thread rule: {@link #take} belongs to one thread, the rest may be called from any.
 */
final class OpenEar {

  /** Sound is taken in pieces of up to 20 ms. */
  static final int BLOCK = Clip.SAMPLE_RATE_HZ / 50;

  private static final int MS = Clip.SAMPLE_RATE_HZ / 1000;

  /** What still rings in the room after it has spoken. */
  private static final int ECHO = 200 * MS;

  /** So much louder than the room, for so long, is somebody who speaks up. */
  private static final double SPEAKS_UP_DB = 20;

  private static final int SPEAKS_UP_BLOCKS = 10;

  /** Whoever spoke up has finished after so long a pause. */
  private static final int FINISHED = 600 * MS;

  /** Sound that is so late has not come in at all for a while: the machine slept. */
  private static final long RESTED_MS = 1500;

  /** A sound card's clock is not this machine's: so far they may drift apart, then times follow. */
  private static final long DRIFTED_MS = 300;

  /** When the key is let go, so much of the room's own noise ends the utterance. */
  private static final int CLOSING_BLOCKS = 45;

  /** How fast the level of the room follows the sound: by a tenth each 20 ms. */
  private static final double FOLLOWS = 0.1;

  /** An engine that is started is the room some seconds later. */
  private static final double FOLLOWS_WHAT_IS_LOUD = 0.005;

  private final InstantSource clock;
  private final BooleanSupplier held;
  private final boolean headset;

  /** By place in what was listened to, in ms: how much later it was said than its place says. */
  private final ConcurrentSkipListMap<Long, Long> laterMs = new ConcurrentSkipListMap<>();

  /** By what had come in, in ms: how much later the rest was said than the samples tell. */
  private final ConcurrentSkipListMap<Long, Long> restedMs = new ConcurrentSkipListMap<>();

  private volatile @Nullable Instant begin;
  private volatile long taken;

  private long cameIn;
  private long heard;
  private int echo;
  private int loudBlocks;
  private boolean dropping;
  private int quiet;
  private boolean wasHeld;
  private double roomDb = Double.NaN;
  private short[] room = new short[0];
  private final RoomBands roomBands = new RoomBands();

  OpenEar(InstantSource clock, BooleanSupplier held, boolean headset) {
    this.clock = clock;
    this.held = held;
    this.headset = headset;
  }

  /**
   * What to do with a piece of sound.
   *
   * @param heard what is to be listened to, may be empty
   * @param spokenInto somebody speaks up while the tool speaks
   * @param askAgain whoever did has finished
   */
  @SuppressWarnings("ArrayRecordComponent") // handed on at once, never kept or compared
  record Sound(short[] heard, boolean spokenInto, boolean askAgain) {}

  /**
   * Takes a piece of sound.
   *
   * @param speaking whether the tool itself speaks
   * @param underWay whether somebody speaks, as far as was listened to
   */
  Sound take(short[] samples, int count, boolean speaking, boolean underWay) {
    if (begin == null) {
      begin = clock.instant().minusMillis(count / MS);
    }
    cameIn += count;
    taken = cameIn;
    double level = levelDb(samples, count);
    boolean up = level > roomDb + SPEAKS_UP_DB;
    if (speaking || echo > 0 || dropping) {
      return deaf(count, speaking, level, up);
    }
    boolean holds = held.getAsBoolean();
    boolean letGo = wasHeld && !holds;
    wasHeld = holds;
    if (!underWay) {
      followRoom(level, up);
      room = up ? room : Arrays.copyOf(samples, count);
      roomBands.add(samples, count);
    }
    if (letGo) {
      return new Sound(listenTo(closing(samples, count), count), false, false);
    }
    return holds
        ? new Sound(listenTo(Arrays.copyOf(samples, count), count), false, false)
        : new Sound(new short[0], false, false);
  }

  /**
   * Keeps time with what comes in next: samples are counted, but while none come in, time goes by.
   *
   * @param count how many samples come
   * @param broken whether they are known not to follow on the last
   * @param underWay whether somebody speaks, as far as was listened to
   * @return whether so long nothing came that they don't
   */
  boolean rested(int count, boolean broken, boolean underWay) {
    if (begin == null) {
      return false;
    }
    long lateMs = Duration.between(now(), clock.instant()).toMillis() - count / MS;
    boolean rested = lateMs > RESTED_MS;
    if (rested || (lateMs > 0 && broken) || (lateMs > DRIFTED_MS && !underWay)) {
      restedMs.put(taken / MS, rested(taken / MS) + lateMs);
    }
    return rested;
  }

  private long rested(long cameInMs) {
    Map.Entry<Long, Long> before = restedMs.floorEntry(cameInMs);
    return before == null ? 0 : before.getValue();
  }

  /**
   * What comes in next does not follow on what came in last: whatever is under way has ended.
   *
   * @return what is to be listened to, so that it ends
   */
  short[] breakOff() {
    dropping = false;
    echo = 0;
    loudBlocks = 0;
    wasHeld = false;
    return listenTo(closing(new short[0], 0), 0);
  }

  private Sound deaf(int count, boolean speaking, double level, boolean up) {
    echo = speaking ? ECHO : Math.max(0, echo - count);
    if (dropping) {
      followRoom(level, up);
      quiet = up ? 0 : quiet + count;
      boolean finished = !speaking && quiet >= FINISHED;
      dropping = !finished;
      return new Sound(new short[0], false, finished);
    }
    loudBlocks = up && speaking ? loudBlocks + 1 : 0;
    if (headset && loudBlocks >= SPEAKS_UP_BLOCKS) {
      loudBlocks = 0;
      dropping = true;
      quiet = 0;
      return new Sound(new short[0], true, false);
    }
    return new Sound(new short[0], false, false);
  }

  private void followRoom(double level, boolean up) {
    roomDb =
        Double.isNaN(roomDb)
            ? level
            : roomDb + (up ? FOLLOWS_WHAT_IS_LOUD : FOLLOWS) * (level - roomDb);
  }

  /** The last piece, and after it the room as it sounded before anybody spoke. */
  private short[] closing(short[] samples, int count) {
    short[] noise = room.length > 0 ? room : new short[BLOCK];
    short[] closing = Arrays.copyOf(samples, count + CLOSING_BLOCKS * noise.length);
    for (int i = 0; i < CLOSING_BLOCKS; i++) {
      System.arraycopy(noise, 0, closing, count + i * noise.length, noise.length);
    }
    return closing;
  }

  /**
   * Counts what is listened to.
   *
   * @param count how much of it is what came in last; the rest was never said
   */
  private short[] listenTo(short[] samples, int count) {
    long later = (taken - count - heard) / MS;
    Map.Entry<Long, Long> last = laterMs.lastEntry();
    if (last == null || last.getValue() != later) {
      laterMs.put(heard / MS, later);
    }
    heard += samples.length;
    return samples;
  }

  /** When something was said, by its place in what was listened to. */
  Instant at(long placeMs) {
    long cameInMs = cameInMs(placeMs);
    return start().plusMillis(cameInMs + rested(cameInMs));
  }

  /** Where in what came in something lies, by its place in what was listened to. */
  long cameInMs(long placeMs) {
    Map.Entry<Long, Long> before = laterMs.floorEntry(placeMs);
    return placeMs + (before == null ? 0 : before.getValue());
  }

  /** How loud the room is in each band while nobody speaks; none at first. */
  List<Double> roomDb() {
    return roomBands.levelsDb();
  }

  /** How many samples came in. */
  long cameIn() {
    return taken;
  }

  /** The time of what came in last. */
  Instant now() {
    return start().plusMillis(taken / MS + rested(taken / MS));
  }

  private Instant start() {
    Instant known = begin;
    return known == null ? clock.instant() : known;
  }

  private static double levelDb(short[] samples, int count) {
    double power = 1;
    for (int i = 0; i < count; i++) {
      power += (double) samples[i] * samples[i] / count;
    }
    return 10 * Math.log10(power);
  }
}

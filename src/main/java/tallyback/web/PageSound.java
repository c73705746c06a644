package tallyback.web;

import java.time.Instant;
import java.util.ArrayDeque;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.ConcurrentSkipListMap;
import java.util.function.ToLongFunction;
import org.jspecify.annotations.Nullable;
import tallyback.app.LiveSound;
import tallyback.audio.Clip;

/**
 * The sound of a page as one stream for the job. What comes in twice is left out, what is missing
 * breaks the stream, and for each sample it is known which recording it belongs to and when it was
 * made.
 *
 * <p>Thread rule: pages put sound in from any thread, one thread reads. Bounded: {@link #accept}
 * turns down what is more than {@link #WINDOW} ahead of the reader.
 */
final class PageSound implements LiveSound {

  /** So many samples may wait to be read. */
  static final int WINDOW = 20 * Clip.SAMPLE_RATE_HZ;

  private static final int MOST_STREAMS = 64;
  private static final int LOOK_MS = 50;

  /** Told where in which stream the reader, or what is settled, stands. */
  interface Progress {

    /** Everything of a stream before a sample was read. */
    void taken(String stream, long sample);

    /** Everything of a stream before a sample is settled: on disk or no entry. */
    void settled(String stream, long sample);
  }

  /** A piece of sound and where it stands. No samples: the recording has ended. */
  @SuppressWarnings("ArrayRecordComponent") // never compared
  private record Piece(
      String stream,
      long first,
      double atMs,
      boolean held,
      boolean playing,
      boolean free,
      short[] samples) {

    long end() {
      return first + samples.length;
    }

    Piece from(long sample) {
      int skip = (int) (sample - first);
      short[] rest = java.util.Arrays.copyOfRange(samples, skip, samples.length);
      double later = skip * 1000.0 / Clip.SAMPLE_RATE_HZ;
      return new Piece(stream, sample, atMs + later, held, playing, free, rest);
    }
  }

  private final ToLongFunction<String> alreadyNoted;
  private final Progress progress;
  private final ArrayDeque<Piece> waiting = new ArrayDeque<>();
  private final Map<String, Long> next = new LinkedHashMap<>(16, 0.75f, true);

  /** By the position at which it was read. */
  private final ConcurrentSkipListMap<Long, Piece> read = new ConcurrentSkipListMap<>();

  private long waitingSamples;
  private boolean closed;

  private @Nullable Piece piece;
  private int used;
  private long position;
  private volatile boolean broken;
  private volatile boolean held;
  private volatile boolean playing;
  private long settledBefore;
  private long takenTold;

  /**
   * An empty stream.
   *
   * @param alreadyNoted up to which sample of a stream the log holds entries, 0 for none
   */
  PageSound(ToLongFunction<String> alreadyNoted, Progress progress) {
    this.alreadyNoted = alreadyNoted;
    this.progress = progress;
  }

  /**
   * From which sample of a stream on sound is wanted.
   *
   * @param oldest the oldest one the page still has
   */
  synchronized long wanted(String stream, long oldest) {
    return Math.max(oldest, expected(stream));
  }

  private long expected(String stream) {
    Long known = next.get(stream);
    if (known == null) {
      known = alreadyNoted.applyAsLong(stream);
      next.put(stream, known);
      if (next.size() > MOST_STREAMS) {
        next.remove(next.keySet().iterator().next());
      }
    }
    return known;
  }

  /**
   * Takes a frame.
   *
   * @param stream its full name
   * @param atMs when its first sample was recorded, by the clock of this machine
   * @return false when more waits than may
   */
  synchronized boolean accept(String stream, SoundFrame frame, double atMs) {
    long from = expected(stream);
    if (frame.end() <= from) {
      return true;
    }
    if (waitingSamples + frame.samples().length > WINDOW) {
      return false;
    }
    Piece whole =
        new Piece(
            stream,
            frame.first(),
            atMs,
            frame.held(),
            frame.playing(),
            frame.free(),
            frame.samples());
    add(frame.first() < from ? whole.from(from) : whole);
    return true;
  }

  /** A recording has ended: what is being said in it has, too. */
  synchronized void end(String stream, double atMs) {
    long at = expected(stream);
    add(new Piece(stream, at, atMs, true, false, false, new short[0]));
  }

  private void add(Piece piece) {
    next.put(piece.stream(), piece.end());
    waiting.add(piece);
    waitingSamples += piece.samples().length;
    notifyAll();
  }

  @Override
  public int read(short[] buffer) {
    Piece now = piece;
    if (now == null || used >= now.samples().length) {
      Piece before = now;
      now = await();
      if (now == null) {
        return -1;
      }
      piece = now;
      used = 0;
      read.put(position, now);
      held = now.held();
      playing = now.playing();
      broken =
          before == null
              || !before.stream().equals(now.stream())
              || before.end() != now.first()
              || now.samples().length == 0;
      if (now.samples().length == 0) {
        buffer[0] = 0;
        position++;
        return 1;
      }
    } else {
      broken = false;
    }
    int count = Math.min(buffer.length, now.samples().length - used);
    System.arraycopy(now.samples(), used, buffer, 0, count);
    used += count;
    position += count;
    if (position - takenTold >= Clip.SAMPLE_RATE_HZ / 4) {
      takenTold = position;
      progress.taken(now.stream(), now.first() + used);
    }
    return count;
  }

  private synchronized @Nullable Piece await() {
    try {
      while (waiting.isEmpty() && !closed) {
        wait(LOOK_MS);
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return null;
    }
    Piece first = waiting.poll();
    waitingSamples -= first == null ? 0 : first.samples().length;
    return first;
  }

  @Override
  public Spot spot(long at) {
    Map.Entry<Long, Piece> found = read.floorEntry(at);
    if (found == null) {
      found = read.firstEntry();
    }
    if (found == null) {
      return new Spot("nothing", 0, Instant.EPOCH, false);
    }
    Piece in = found.getValue();
    long into = Math.max(0, at - found.getKey());
    double ms = in.atMs() + into * 1000.0 / Clip.SAMPLE_RATE_HZ;
    return new Spot(
        in.stream(), in.first() + into, Instant.ofEpochMilli(Math.round(ms)), in.free());
  }

  @Override
  public boolean isHeld() {
    return held;
  }

  @Override
  public boolean isPlaying() {
    return playing;
  }

  @Override
  public boolean isBroken() {
    return broken;
  }

  @Override
  public void settled(long before) {
    if (before - settledBefore < Clip.SAMPLE_RATE_HZ / 4) {
      return;
    }
    settledBefore = before;
    Map.Entry<Long, Piece> at = read.floorEntry(before);
    if (at == null) {
      return;
    }
    for (Map.Entry<Long, Piece> older = read.firstEntry();
        older != null && older.getKey() < at.getKey();
        older = read.firstEntry()) {
      read.pollFirstEntry();
      if (!older.getValue().stream().equals(at.getValue().stream())) {
        progress.settled(older.getValue().stream(), older.getValue().end());
      }
    }
    long into = Math.min(before - at.getKey(), at.getValue().samples().length);
    progress.settled(at.getValue().stream(), at.getValue().first() + into);
  }

  @Override
  public synchronized void close() {
    closed = true;
    notifyAll();
  }
}

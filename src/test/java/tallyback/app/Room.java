package tallyback.app;

import java.util.Random;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.function.BooleanSupplier;
import tallyback.audio.Clip;
import tallyback.audio.SampleSource;
import tallyback.audio.SoundOut;

/**
 * A room with a microphone and a loudspeaker, in which time runs as fast as the microphone is read:
 * what the loudspeaker plays lasts until so much has been recorded.
 */
final class Room implements SampleSource {

  private static final int HISS = 9;

  /** So that a stream never runs far ahead of those who listen to it: ten times as fast as life. */
  private static final int MS_FOR_20_MS = 2;

  /** When the microphone is not read any more, no time goes by in the room. */
  private static final int NOBODY_READS_MS = 500;

  private final BlockingQueue<short[]> sayings = new LinkedBlockingQueue<>();
  private final Random random = new Random(3);
  private final boolean echoes;
  private short[] saying = new short[0];
  private int said;
  private long read;
  private volatile long recorded;
  private volatile boolean closed;
  private volatile double playing;
  private volatile short[] machine = new short[0];
  private volatile double machineGain;
  private int turned;

  /**
   * A room.
   *
   * @param echoes whether the microphone hears the loudspeaker
   */
  Room(boolean echoes) {
    this.echoes = echoes;
  }

  /** Somebody says something, after all that was said before. */
  void say(Clip clip) {
    sayings.add(clip.samples());
  }

  /** A machine runs from now on, round and round. */
  void run(Clip sound, double gain) {
    machine = sound.samples();
    machineGain = gain;
  }

  /** It is switched off. */
  void stop() {
    machine = new short[0];
  }

  /** Whether something is being said or will be. */
  boolean isQuiet() {
    return sayings.isEmpty() && said >= saying.length;
  }

  /** Waits until nothing was played for three seconds of the room's time. */
  void awaitHush() {
    for (long since = recorded; recorded - since < 3L * Clip.SAMPLE_RATE_HZ; ) {
      since = playing == 0 ? since : recorded;
      pause(2);
    }
  }

  @Override
  public int read(short[] buffer) {
    if (closed) {
      return -1;
    }
    pause(MS_FOR_20_MS);
    for (int i = 0; i < buffer.length; i++) {
      double sample = HISS * random.nextGaussian();
      if (said >= saying.length) {
        short[] next = sayings.poll();
        saying = next == null ? new short[0] : next;
        said = 0;
      }
      if (said < saying.length) {
        sample += saying[said++];
      }
      short[] noise = machine;
      if (noise.length > 0) {
        sample += machineGain * noise[turned++ % noise.length];
      }
      if (echoes) {
        sample += playing * Math.sin(i * 0.4);
      }
      buffer[i] = (short) Math.max(-32_768, Math.min(32_767, sample));
    }
    read += buffer.length;
    recorded = read;
    return buffer.length;
  }

  private static void pause(int ms) {
    try {
      Thread.sleep(ms);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  @Override
  public void close() {
    closed = true;
  }

  /** Its loudspeaker. */
  SoundOut loudspeaker() {
    return new SoundOut() {
      private volatile boolean closed;

      @Override
      public boolean play(Clip clip, BooleanSupplier wanted) {
        long end = recorded + clip.length();
        playing = 3000;
        long before = recorded;
        for (int unread = 0;
            recorded < end && goesOn(wanted) && unread < NOBODY_READS_MS;
            unread++) {
          pause(1);
          unread = recorded == before ? unread : 0;
          before = recorded;
        }
        playing = 0;
        return goesOn(wanted);
      }

      private boolean goesOn(BooleanSupplier wanted) {
        return !closed && wanted.getAsBoolean();
      }

      @Override
      public void close() {
        closed = true;
      }
    };
  }
}

package tallyback.app;

import java.io.IOException;
import java.util.List;
import java.util.function.Consumer;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import tallyback.audio.Clip;
import tallyback.audio.Cues.Cue;
import tallyback.audio.Cutter;
import tallyback.audio.CutterSettings;
import tallyback.audio.SampleSource;
import tallyback.audio.SoundOut;
import tallyback.voice.Voice;

/**
 * Lines said aloud one after the other, and what is repeated of them taken by {@link Teaching}. A
 * line that was not understood is asked for once more, and then left for another time. While it
 * speaks it does not listen.
 *
 * <p>Threads: {@link #run} belongs to the thread of the teaching; {@link #stop} may be called from
 * any. The mouth has one of its own.
 */
public final class LiveTeaching {

  private static final int BLOCK = 1600;
  private static final int TRIES = 2;

  /** Its own voice dies away in the room. */
  private static final int ECHO = Clip.SAMPLE_RATE_HZ * 3 / 10;

  /** Who says nothing for so long has gone, or the microphone is muted. */
  private static final int LONGEST_WAIT = 20 * Clip.SAMPLE_RATE_HZ;

  private final Teaching teaching;
  private final @Nullable Supplier<Voice> voice;
  private final @Nullable Supplier<SoundOut> out;
  private final Consumer<Event> each;
  private volatile boolean stopped;

  /** What there is to tell, in order. */
  public sealed interface Event {

    /**
     * A line is to be repeated.
     *
     * @param line the line
     * @param again why once more; null for the first time
     */
    record Say(Teaching.Line line, Teaching.@Nullable Taken again) implements Event {}

    /**
     * A line was repeated, and is kept.
     *
     * @param line the line
     */
    record Kept(Teaching.Line line) implements Event {}

    /**
     * A line was given up for this time.
     *
     * @param line the line
     * @param why why
     */
    record Skipped(Teaching.Line line, Teaching.Taken why) implements Event {}

    /** Nobody repeated a line, and so it ends before all are said. */
    record NobodyThere() implements Event {}
  }

  /**
   * Ready to begin.
   *
   * @param voice opens the voice, or null for nothing aloud
   * @param out opens the loudspeaker, or null likewise
   * @param each told about each event, on the thread of {@link #run}
   */
  public LiveTeaching(
      Teaching teaching,
      @Nullable Supplier<Voice> voice,
      @Nullable Supplier<SoundOut> out,
      Consumer<Event> each) {
    this.teaching = teaching;
    this.voice = voice;
    this.out = out;
    this.each = each;
  }

  /** Breaks it off; what was kept stays. */
  public void stop() {
    stopped = true;
  }

  /**
   * Has lines repeated.
   *
   * @param lines the lines
   * @param source the sound; not closed here
   * @return whether all were gone through; false when it was broken off
   * @throws IOException if the sound stops coming
   */
  public boolean run(List<Teaching.Line> lines, SampleSource source) throws IOException {
    try (Mouth mouth = voice == null || out == null ? null : Mouth.start(voice, out)) {
      Listening listening = new Listening(source, mouth);
      for (Teaching.Line line : lines) {
        if (!repeated(line, listening)) {
          return false;
        }
      }
      return true;
    }
  }

  private boolean repeated(Teaching.Line line, Listening listening) throws IOException {
    Teaching.Taken taken = null;
    for (int tries = 0; tries < TRIES; tries++) {
      each.accept(new Event.Say(line, taken));
      Clip clip = listening.after(taken == null ? Cue.NONE : Cue.ASKED, line.text());
      if (clip == null) {
        if (!stopped) {
          each.accept(new Event.NobodyThere());
        }
        return false;
      }
      taken = teaching.take(line, clip);
      if (taken == Teaching.Taken.UNDERSTOOD) {
        each.accept(new Event.Kept(line));
        return true;
      }
    }
    each.accept(new Event.Skipped(line, java.util.Objects.requireNonNull(taken)));
    return true;
  }

  /** The sound, without what comes in while something is said aloud. */
  private final class Listening {
    private final SampleSource source;
    private final @Nullable Mouth mouth;
    private final Cutter cutter = new Cutter(CutterSettings.defaults());
    private final short[] block = new short[BLOCK];

    Listening(SampleSource source, @Nullable Mouth mouth) {
      this.source = source;
      this.mouth = mouth;
    }

    /** The next utterance after a text was said aloud; null when there is none. */
    @Nullable Clip after(Cue cue, String text) throws IOException {
      if (mouth != null) {
        mouth.say(cue, text, () -> {});
      }
      int echo = mouth == null ? 0 : ECHO;
      int waited = 0;
      while (!stopped) {
        int count = source.read(block);
        if (count < 0) {
          List<Clip> last = cutter.finish();
          return last.isEmpty() ? null : last.get(0);
        }
        if (mouth != null) {
          mouth.requireUsable();
          if (!mouth.isDone()) {
            continue;
          }
        }
        if (echo > 0) {
          echo -= count;
          continue;
        }
        List<Clip> clips = cutter.accept(block, count);
        if (!clips.isEmpty()) {
          return clips.get(0);
        }
        waited = cutter.isUnderWay() ? 0 : waited + count;
        if (waited > LONGEST_WAIT) {
          return null;
        }
      }
      return null;
    }
  }
}

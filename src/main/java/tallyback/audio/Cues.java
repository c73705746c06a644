package tallyback.audio;

import java.util.List;

/**
 * The short sounds before what is said aloud. They differ by pattern and not by pitch: whoever
 * hears badly, or works beside an engine, can still count.
 */
public final class Cues {

  private static final int MS = Clip.SAMPLE_RATE_HZ / 1000;

  /** Engines drown what lies below, worn ears lose what lies above. */
  private static final double PITCH_HZ = 1000;

  private static final double LOUDNESS = 0.25 * Short.MAX_VALUE;

  /** A tone that starts or stops at once clicks. */
  private static final int RAMP_MS = 8;

  private static final int PAUSE_AFTER_MS = 120;

  /** What a sound means. */
  public enum Cue {
    /** It is noted. One short tone. */
    NOTED(List.of(90)),
    /** Something is asked. Two short tones. */
    ASKED(List.of(90, -90, 90)),
    /** Nothing was noted. One long tone, three times as long as a short one and more. */
    REJECTED(List.of(360)),
    /** No sound. */
    NONE(List.of());

    /** Milliseconds of tone, and, below nought, of silence. */
    @SuppressWarnings("ImmutableEnumChecker") // copied, never changed
    private final List<Integer> patternMs;

    Cue(List<Integer> patternMs) {
      this.patternMs = List.copyOf(patternMs);
    }

    /** Milliseconds of tone, and, below nought, of silence. */
    public List<Integer> patternMs() {
      return patternMs;
    }
  }

  private Cues() {}

  /**
   * Puts a sound before speech.
   *
   * @param cue the sound
   * @param speech what is said, may be empty
   * @return both, with a pause between them
   */
  public static Clip before(Cue cue, Clip speech) {
    int length = speech.length();
    for (int ms : cue.patternMs()) {
      length += Math.abs(ms) * MS;
    }
    int pause = cue == Cue.NONE || speech.length() == 0 ? 0 : PAUSE_AFTER_MS * MS;
    short[] samples = new short[length + pause];
    int at = 0;
    for (int ms : cue.patternMs()) {
      if (ms > 0) {
        tone(samples, at, ms * MS);
      }
      at += Math.abs(ms) * MS;
    }
    at += pause;
    for (int i = 0; i < speech.length(); i++) {
      samples[at + i] = speech.sample(i);
    }
    return new Clip(samples, 0);
  }

  private static void tone(short[] samples, int from, int count) {
    int ramp = RAMP_MS * MS;
    for (int i = 0; i < count; i++) {
      double edge = Math.min(1, Math.min(i, count - 1 - i) / (double) ramp);
      double phase = 2 * Math.PI * PITCH_HZ * i / Clip.SAMPLE_RATE_HZ;
      samples[from + i] = (short) Math.round(LOUDNESS * edge * Math.sin(phase));
    }
  }
}

package tallyback.audio;

/**
 * Finds a piece of sound that is missing: zeros where a microphone that hissed must go on hissing,
 * or right beside loud sound. A noise gate, which lets sound fade before it shuts, makes no hole.
 * The limits are choices of our own, no source: a tenth of a second, below which no word can be
 * lost, and an edge of a hundredth of full scale (-40 dB).
 */
final class Hole {

  private static final int SHORTEST = Clip.SAMPLE_RATE_HZ / 10;
  private static final int EDGE = Clip.SAMPLE_RATE_HZ / 200;
  private static final int LOUD = 328;

  private Hole() {}

  static boolean isIn(short[] samples) {
    int edge = Math.min(EDGE, samples.length);
    boolean hissesFirst = reaches(1, samples, 0, edge);
    boolean hissesLast = reaches(1, samples, samples.length - edge, samples.length);
    int from = 0;
    for (int i = 0; i <= samples.length; i++) {
      if (i == samples.length || samples[i] != 0) {
        boolean begins = from == 0;
        boolean ends = i == samples.length;
        boolean breaksHiss = hissesFirst && (ends || (!begins && hissesLast));
        boolean whole = begins && ends;
        if (!whole && i - from >= SHORTEST && (breaksHiss || isTornOff(samples, from, i))) {
          return true;
        }
        from = i + 1;
      }
    }
    return false;
  }

  private static boolean isTornOff(short[] samples, int from, int to) {
    return isLoud(samples, Math.max(0, from - EDGE), from)
        || isLoud(samples, to, Math.min(samples.length, to + EDGE));
  }

  private static boolean isLoud(short[] samples, int from, int to) {
    return reaches(LOUD, samples, from, to);
  }

  private static boolean reaches(int size, short[] samples, int from, int to) {
    for (int i = from; i < to; i++) {
      if (Math.abs(samples[i]) >= size) {
        return true;
      }
    }
    return false;
  }
}

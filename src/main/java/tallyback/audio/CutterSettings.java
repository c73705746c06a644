package tallyback.audio;

/**
 * How utterances are cut out of a stream. The defaults are the tuned values behind every published
 * figure.
 *
 * @param preRollMs how much of what came before the first sound belongs to the clip
 * @param hangoverMs how long a pause ends an utterance; shorter ones stay inside it
 * @param postRollMs how much of that pause belongs to the clip
 * @param longestMs no clip is longer: an utterance that goes on is cut, and its rest is a clip of
 *     its own
 * @param shortestSpeechMs sounds shorter than this in all are clicks and are dropped
 * @param divergenceDb how far the spectrum must rise above the noise to be speech
 * @param quietestDbfs the noise is never taken to be quieter than this, so that a faint hiss in a
 *     digital silence is no speech
 */
public record CutterSettings(
    int preRollMs,
    int hangoverMs,
    int postRollMs,
    int longestMs,
    int shortestSpeechMs,
    double divergenceDb,
    double quietestDbfs) {

  /**
   * The tuned values.
   *
   * @return the defaults
   */
  public static CutterSettings defaults() {
    return new CutterSettings(250, 600, 250, 30_000, 120, 6, -72);
  }
}

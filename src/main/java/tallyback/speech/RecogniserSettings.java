package tallyback.speech;

/**
 * How a recogniser searches and what it rejects. The defaults are the tuned values behind every
 * published figure.
 *
 * @param wordInsertionLogProbability natural log of the price of each further word where it is
 *     quiet. Lower hears fewer, longer words.
 * @param wordInsertionLogProbabilityInNoise the same where the model is matched to noise: there all
 *     sounds are nearer to one another, so the same price would weigh more
 * @param silenceInsertionLogProbability natural log of the price of a pause between words
 * @param phoneInsertionLogProbability natural log of the price of each phone of the filler. Higher
 *     lets the filler explain more.
 * @param leastFit readings whose {@link Reading#fit} is lower are rejected. Higher rejects more.
 * @param beamLogWidth natural log: how far behind the best a path may fall before it is given up
 * @param maxActiveStates how many paths are followed at most
 */
public record RecogniserSettings(
    double wordInsertionLogProbability,
    double wordInsertionLogProbabilityInNoise,
    double silenceInsertionLogProbability,
    double phoneInsertionLogProbability,
    double leastFit,
    double beamLogWidth,
    int maxActiveStates) {

  /**
   * The tuned values.
   *
   * @return the defaults
   */
  public static RecogniserSettings defaults() {
    return new RecogniserSettings(
        Math.log(1e-20),
        Math.log(1e-15),
        Math.log(0.1),
        Math.log(1e-3),
        -110,
        Math.log(1e-50),
        1_500);
  }

  /**
   * These settings with another limit for rejection.
   *
   * @param otherLeastFit see {@link #leastFit}; negative infinity rejects nothing that has a
   *     reading
   * @return the changed settings
   */
  public RecogniserSettings withLeastFit(double otherLeastFit) {
    return new RecogniserSettings(
        wordInsertionLogProbability,
        wordInsertionLogProbabilityInNoise,
        silenceInsertionLogProbability,
        phoneInsertionLogProbability,
        otherLeastFit,
        beamLogWidth,
        maxActiveStates);
  }

  /**
   * The price of each further word.
   *
   * @param inNoise whether the model is matched to noise
   * @return its natural log
   */
  public double wordInsertionLogProbability(boolean inNoise) {
    return inNoise ? wordInsertionLogProbabilityInNoise : wordInsertionLogProbability;
  }
}

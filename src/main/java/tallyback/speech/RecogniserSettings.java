package tallyback.speech;

/**
 * How a recogniser searches. The defaults are the tuned values behind every published figure.
 *
 * @param wordInsertionLogProbability natural log of the price of each further word. Lower hears
 *     fewer, longer words.
 * @param silenceInsertionLogProbability natural log of the price of a pause between words
 * @param phoneInsertionLogProbability natural log of the price of each phone of the filler. Higher
 *     lets the filler win more.
 * @param fillerLogProbability natural log of the price of reading the whole clip as filler. Higher
 *     rejects more.
 * @param beamLogWidth natural log: how far behind the best a path may fall before it is given up
 * @param maxActiveStates how many paths are followed at most
 */
public record RecogniserSettings(
    double wordInsertionLogProbability,
    double silenceInsertionLogProbability,
    double phoneInsertionLogProbability,
    double fillerLogProbability,
    double beamLogWidth,
    int maxActiveStates) {

  /**
   * The tuned values.
   *
   * @return the defaults
   */
  public static RecogniserSettings defaults() {
    return new RecogniserSettings(
        Math.log(0.1), Math.log(0.1), Math.log(1e-3), Math.log(1e-15), Math.log(1e-60), 20_000);
  }
}

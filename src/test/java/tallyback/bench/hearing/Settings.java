package tallyback.bench.hearing;

import tallyback.speech.RecogniserSettings;

/**
 * The default settings, each of which a system property of its name may replace: for tuning runs
 * only.
 */
final class Settings {

  private Settings() {}

  static RecogniserSettings fromProperties() {
    RecogniserSettings tuned = RecogniserSettings.defaults();
    return new RecogniserSettings(
        number("wordInsertionLogProbability", tuned.wordInsertionLogProbability()),
        number("silenceInsertionLogProbability", tuned.silenceInsertionLogProbability()),
        number("phoneInsertionLogProbability", tuned.phoneInsertionLogProbability()),
        number("leastFit", tuned.leastFit()),
        number("beamLogWidth", tuned.beamLogWidth()),
        (int) number("maxActiveStates", tuned.maxActiveStates()));
  }

  private static double number(String name, double otherwise) {
    return Double.parseDouble(System.getProperty(name, Double.toString(otherwise)));
  }
}

package tallyback.bench.hearing;

import tallyback.speech.ListeningMode;
import tallyback.speech.ListeningSettings;
import tallyback.speech.RecogniserSettings;

/**
 * The default settings, each of which a system property of its name may replace: for tuning runs
 * only.
 */
final class Settings {

  private Settings() {}

  static RecogniserSettings fromProperties(ListeningMode mode) {
    RecogniserSettings tuned = ListeningSettings.defaults().of(mode);
    return new RecogniserSettings(
        number("wordInsertionLogProbability", tuned.wordInsertionLogProbability()),
        number("wordInsertionLogProbabilityInNoise", tuned.wordInsertionLogProbabilityInNoise()),
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

package tallyback.speech.sphinx;

import java.util.List;
import java.util.logging.Handler;
import java.util.logging.Level;
import java.util.logging.LogRecord;
import java.util.logging.Logger;

/**
 * Keeps the recogniser library off the console: it logs tables at every utterance, and under the
 * bare names of its classes where no level set for {@code edu.cmu.sphinx} reaches them. Here
 * warnings and worse of all of them go to the logger {@code edu.cmu.sphinx}, which writes nowhere
 * until the program gives it a handler.
 *
 * <p>Thread rule: may be called from any thread.
 */
final class LibraryLog {

  private static final Logger LIBRARY = Logger.getLogger("edu.cmu.sphinx");

  /**
   * The parts that log under a bare name. Held, because a logger that nothing refers to forgets its
   * level.
   */
  private static final List<Logger> PARTS =
      List.of(
              "AutoCepstrum",
              "BatchCMN",
              "Denoise",
              "DeltasFeatureExtractor",
              "DiscreteCosineTransform2",
              "DiscreteFourierTransform",
              "FeatureTransform",
              "FrameReplay",
              "FrontEnd",
              "Lifter",
              "MelFrequencyFilterBank2",
              "MelFrequencyFilterBank",
              "PartitionActiveListFactory",
              "Preemphasizer",
              "RaisedCosineWindower",
              "SamplesSource",
              "SimpleAcousticScorer",
              "SimpleBreadthFirstSearchManager",
              "SimplePruner",
              "Sphinx3Loader",
              "TiedStateAcousticModel")
          .stream()
          .map(Logger::getLogger)
          .toList();

  private LibraryLog() {}

  /** Does it, once or again. */
  static synchronized void quieten() {
    LIBRARY.setLevel(Level.WARNING);
    LIBRARY.setUseParentHandlers(false);
    for (Logger part : PARTS) {
      part.setLevel(Level.WARNING);
      part.setUseParentHandlers(false);
      if (part.getHandlers().length == 0) {
        part.addHandler(new Forwarding());
      }
    }
  }

  /** Hands a record on to the library's own logger. */
  private static final class Forwarding extends Handler {
    @Override
    public void publish(LogRecord record) {
      LIBRARY.log(record);
    }

    @Override
    public void flush() {}

    @Override
    public void close() {}
  }
}

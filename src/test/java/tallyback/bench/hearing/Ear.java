package tallyback.bench.hearing;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tallyback.audio.Clip;
import tallyback.speech.Hearing;
import tallyback.speech.ListeningMode;
import tallyback.speech.ListeningSettings;
import tallyback.speech.Meaning;
import tallyback.speech.Reading;
import tallyback.speech.Recogniser;
import tallyback.speech.Word;
import tallyback.speech.adapt.NoiseModel;
import tallyback.speech.adapt.TeachableRecogniser;

/**
 * Hears an utterance and says what became of it, by the program's own judgement.
 *
 * <p>One thread, the recogniser's.
 */
final class Ear implements AutoCloseable {

  private static final ThreadMXBean THREADS = ManagementFactory.getThreadMXBean();

  private final Recogniser recogniser;
  private final ListeningMode mode;
  private final Meaning meaning;

  /** An ear with this recogniser, which it closes with itself. */
  Ear(Recogniser recogniser, ListeningMode mode, Meaning meaning) {
    this.recogniser = recogniser;
    this.mode = mode;
    this.meaning = meaning;
  }

  /** The recogniser, to be taught a voice; null when it is none that can be. */
  @Nullable TeachableRecogniser teachable() {
    return recogniser instanceof TeachableRecogniser teachable ? teachable : null;
  }

  /** Hears a clip and keeps nothing of it: the virtual machine is slow at first. */
  void warmUp(Clip clip) {
    recogniser.hear(clip, mode);
  }

  /** From now on hears by what was learned of noises. */
  void use(List<NoiseModel> learned) {
    recogniser.use(learned);
  }

  Heard hear(SpeechSet set, String noise, Snr snr, Utterance utterance, Clip clip) {
    long before = THREADS.getCurrentThreadCpuTime();
    Hearing hearing = recogniser.hear(clip, mode);
    // As the file of hearings keeps it, so that a run taken up again says the same.
    double cpuMs = Math.round((THREADS.getCurrentThreadCpuTime() - before) / 1e5) / 10.0;
    Outcome outcome =
        Outcome.of(
            utterance.said(),
            hearing,
            ListeningSettings.defaults().judge(mode).judge(hearing),
            meaning);
    boolean none = hearing.isRejected();
    Reading best = none ? new Reading(List.of(), 0) : hearing.readings().get(0);
    return new Heard(
        set.name(),
        noise,
        snr.toString(),
        utterance.id(),
        outcome,
        Outcome.rightAt(utterance.said(), hearing, meaning),
        cpuMs,
        clip.length() * 1000.0 / Clip.SAMPLE_RATE_HZ,
        none ? 0 : best.fit(),
        none ? 0 : best.logScore() - hearing.fillerScore(),
        hearing.contested(),
        hearing.heardSnrDb(),
        best.words().stream().map(Ear::told).collect(Collectors.joining(" ")),
        String.join(" ", utterance.said()),
        hearing.readings().stream()
            .map(each -> new Heard.Offered(each.line(), best.logScore() - each.logScore()))
            .toList());
  }

  private static String told(Word word) {
    return String.format(
        Locale.ROOT, "%s:%.0f:%d", word.text(), word.fit(), word.endMs() - word.startMs());
  }

  @Override
  public void close() {
    recogniser.close();
  }
}

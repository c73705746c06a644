package tallyback.bench;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import tallyback.audio.Clip;
import tallyback.speech.Hearing;
import tallyback.speech.ListeningMode;
import tallyback.speech.Reading;
import tallyback.speech.Recogniser;
import tallyback.speech.Word;

/** Hears labelled clips and keeps what was heard, for tables and for tuning. */
final class Observations {

  /** One clip, who spoke it, what was said, and what was heard. */
  record Observation(String speaker, String said, Hearing hearing, double cpuSeconds) {

    double seconds() {
      return hearing.clip().length() / (double) Clip.SAMPLE_RATE_HZ;
    }
  }

  private static final ThreadMXBean THREADS = ManagementFactory.getThreadMXBean();

  private final List<Observation> all = new ArrayList<>();

  void hear(Recogniser recogniser, ListeningMode mode, String speaker, String said, Clip clip) {
    long before = THREADS.getCurrentThreadCpuTime();
    Hearing hearing = recogniser.hear(clip, mode);
    all.add(
        new Observation(
            speaker, said, hearing, (THREADS.getCurrentThreadCpuTime() - before) / 1e9));
  }

  List<Observation> all() {
    return all;
  }

  /**
   * CPU time of hearing over the length of what was heard, after the virtual machine has warmed up.
   */
  double cpuPerSecondOfSound() {
    List<Observation> warm = all.subList(Math.min(20, all.size() / 2), all.size());
    return warm.stream().mapToDouble(Observation::cpuSeconds).sum()
        / warm.stream().mapToDouble(Observation::seconds).sum();
  }

  /**
   * One line each: speaker, said, heard, its score, filler, rival, its score, least fit, fit of all
   * words, SNR, seconds.
   */
  void write(Path file) {
    try {
      Files.createDirectories(file.getParent());
      try (PrintWriter out = new PrintWriter(Files.newBufferedWriter(file))) {
        all.forEach(observation -> out.println(line(observation)));
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static String line(Observation observation) {
    Hearing hearing = observation.hearing();
    List<Reading> readings = hearing.readings();
    boolean none = readings.isEmpty();
    Reading best = none ? new Reading(List.of(), 0) : readings.get(0);
    boolean rival = readings.size() > 1;
    return String.format(
        Locale.ROOT,
        "%s\t%s\t%s\t%.2f\t%.2f\t%s\t%.2f\t%.2f\t%.1f\t%.2f\t%s",
        observation.speaker(),
        observation.said(),
        none ? "-" : best.line(),
        best.logScore(),
        hearing.fillerScore(),
        rival ? readings.get(1).line() : "-",
        rival ? readings.get(1).logScore() : 0,
        best.words().stream().mapToDouble(Word::fit).min().orElse(0),
        hearing.level().snrDb(),
        observation.seconds(),
        String.join(
            " ",
            best.words().stream()
                .map(
                    w ->
                        String.format(
                            Locale.ROOT, "%s:%.0f:%d", w.text(), w.fit(), w.endMs() - w.startMs()))
                .toList()));
  }
}

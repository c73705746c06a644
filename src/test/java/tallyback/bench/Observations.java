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
import tallyback.speech.Meaning;
import tallyback.speech.Reading;
import tallyback.speech.Recogniser;

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
   * One line each: whether the best reading is right, speaker, said, filler, SNR, seconds, each
   * reading and its score, best first, and the fit and milliseconds of each word of the best.
   */
  void write(Path file, Meaning meaning) {
    try {
      Files.createDirectories(file.getParent());
      try (PrintWriter out = new PrintWriter(Files.newBufferedWriter(file))) {
        all.forEach(observation -> out.println(line(observation, meaning)));
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static String line(Observation observation, Meaning meaning) {
    Hearing hearing = observation.hearing();
    List<Reading> readings = hearing.readings();
    StringBuilder line = new StringBuilder(isRight(observation, meaning) ? "right" : "wrong");
    line.append('\t').append(observation.speaker()).append('\t').append(observation.said());
    line.append(
        String.format(
            Locale.ROOT,
            "\t%.2f\t%.1f\t%.2f",
            hearing.fillerScore(),
            hearing.level().snrDb(),
            observation.seconds()));
    for (Reading reading : readings) {
      line.append(String.format(Locale.ROOT, "\t%s\t%.2f", reading.line(), reading.logScore()));
    }
    if (!readings.isEmpty()) {
      line.append('\t');
      readings
          .get(0)
          .words()
          .forEach(
              word ->
                  line.append(
                      String.format(
                          Locale.ROOT,
                          "%s:%.0f:%d ",
                          word.text(),
                          word.fit(),
                          word.endMs() - word.startMs())));
    }
    return line.toString();
  }

  /** Whether the best reading comes to what was said. */
  static boolean isRight(Observation observation, Meaning meaning) {
    return !observation.hearing().isRejected()
        && meaning
            .of(observation.hearing().readings().get(0).texts())
            .equals(meaning.of(List.of(observation.said().split(" "))));
  }
}

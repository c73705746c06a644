package tallyback.bench.hearing;

import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tallyback.speech.ByTrust;
import tallyback.speech.Evidence;
import tallyback.speech.Likeness;
import tallyback.speech.Reading;
import tallyback.speech.Word;

/**
 * One hearing, as it is kept: what a score or a curve over thresholds is made of is in it.
 *
 * @param set the set of speech
 * @param noise the noise, {@code none} for clean speech
 * @param snr the ratio, {@code clean} or in dB
 * @param utterance the utterance
 * @param outcome what became of it
 * @param rightAt which of the readings is right, from 0; -1 for none
 * @param cpuMs processor time
 * @param soundMs length of the sound
 * @param fit how well it fits its sound, natural log per second
 * @param overFillerLog how far the best reading is ahead of any row of phones, natural log
 * @param contested whether a second search came to another meaning
 * @param measuredSnrDb the ratio that the program measures in the clip
 * @param words of the best reading: each word, its fit and its length in ms, between colons
 * @param said the words said
 * @param readings the readings, best first
 */
record Heard(
    String set,
    String noise,
    String snr,
    String utterance,
    Outcome outcome,
    int rightAt,
    double cpuMs,
    double soundMs,
    double fit,
    double overFillerLog,
    boolean contested,
    double measuredSnrDb,
    String words,
    String said,
    List<Offered> readings) {

  /** How many fields a line has; part of the name of the file, so that no other layout is read. */
  static final int FIELDS = 15;

  /**
   * One reading.
   *
   * @param words its words
   * @param behindLog how far it is behind the best, natural log of the likelihood ratio
   */
  record Offered(String words, double behindLog) {

    static Offered of(String text) {
      int end = text.lastIndexOf(' ');
      return new Offered(text.substring(0, end), number(text.substring(end + 1)));
    }

    @Override
    public String toString() {
      return String.format(Locale.ROOT, "%s %.2f", words, behindLog);
    }
  }

  Heard {
    readings = List.copyOf(readings);
  }

  /** What speaks for and against its best reading; there must be one. */
  Evidence evidence() {
    List<String> best = List.of(readings.get(0).words().split(" ", -1));
    Reading reading =
        new Reading(
            Stream.of(words.split(" ", -1))
                .map(word -> word.split(":", -1))
                .map(parts -> new Word(parts[0], 0, 0, number(parts[1])))
                .toList(),
            0);
    return new Evidence(
        best,
        readings.stream()
            .skip(1)
            .map(
                rival ->
                    new Evidence.Rival(
                        Likeness.of(best, List.of(rival.words().split(" ", -1))),
                        rival.behindLog()))
            .toList(),
        fit,
        reading.worstWordFit(),
        reading.worstTellingWordFit(),
        overFillerLog / soundMs * 1000,
        contested,
        measuredSnrDb);
  }

  /** The same with what would become of it by other limits. */
  Heard judged(ByTrust judge) {
    return new Heard(
        set,
        noise,
        snr,
        utterance,
        outcome(judge),
        rightAt,
        cpuMs,
        soundMs,
        fit,
        overFillerLog,
        contested,
        measuredSnrDb,
        words,
        said,
        readings);
  }

  private Outcome outcome(ByTrust judge) {
    if (readings.isEmpty() || !judge.isWorthAsking(evidence())) {
      return Outcome.REJECTED;
    }
    if (judge.isClear(evidence())) {
      return rightAt == 0 ? Outcome.EXACT : Outcome.NOTED_WRONG;
    }
    return rightAt >= 0 ? Outcome.ASKED_RIGHT : Outcome.ASKED_WRONG;
  }

  /** What it is an answer to: there is one hearing for each. */
  String key() {
    return String.join("\t", set, noise, snr, utterance);
  }

  String line() {
    return String.join(
        "\t",
        key(),
        outcome.name(),
        Integer.toString(rightAt),
        String.format(
            Locale.ROOT,
            "%.1f\t%.0f\t%.2f\t%.2f\t%b\t%.1f",
            cpuMs,
            soundMs,
            fit,
            overFillerLog,
            contested,
            measuredSnrDb),
        words,
        said,
        readings.stream().map(Offered::toString).collect(Collectors.joining(" | ")),
        "");
  }

  /** Reads a line back; null when it was broken off. */
  static @Nullable Heard of(String line) {
    String[] field = line.split("\t", -1);
    if (field.length != FIELDS + 1) {
      return null;
    }
    return new Heard(
        field[0],
        field[1],
        field[2],
        field[3],
        Outcome.valueOf(field[4]),
        Integer.parseInt(field[5]),
        number(field[6]),
        number(field[7]),
        number(field[8]),
        number(field[9]),
        Boolean.parseBoolean(field[10]),
        number(field[11]),
        field[12],
        field[13],
        field[14].isEmpty()
            ? List.of()
            : Stream.of(field[14].split(" \\| ", -1)).map(Offered::of).toList());
  }

  private static double number(String text) {
    return Double.parseDouble(text);
  }
}

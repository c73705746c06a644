package tallyback.speech;

import java.util.List;

/**
 * What a hearing holds for and against its best reading.
 *
 * @param words the words of the best reading, at least one
 * @param rivals the other readings
 * @param fit see {@link Reading#fit}
 * @param worstWordFit see {@link Reading#worstWordFit}
 * @param worstTellingWordFit see {@link Reading#worstTellingWordFit}
 * @param overFiller how much better it explains the whole clip than any row of phones: natural log
 *     of the likelihood ratio per second of the clip. Sound that the reading leaves out counts here
 *     and nowhere else.
 * @param contested see {@link Hearing#contested}
 * @param snrDb speech to noise in dB
 */
public record Evidence(
    List<String> words,
    List<Rival> rivals,
    double fit,
    double worstWordFit,
    double worstTellingWordFit,
    double overFiller,
    boolean contested,
    double snrDb) {

  /** Copies the lists. */
  public Evidence {
    words = List.copyOf(words);
    rivals = List.copyOf(rivals);
  }

  /**
   * Another reading.
   *
   * @param likeness in what it differs
   * @param behind how far it is behind the best, natural log of the likelihood ratio
   */
  public record Rival(Likeness likeness, double behind) {}

  /**
   * Gathers it.
   *
   * @param hearing with a reading at least
   * @return the evidence
   */
  public static Evidence of(Hearing hearing) {
    Reading best = hearing.readings().get(0);
    double seconds = Math.max(1, hearing.clip().durationMs()) / 1000.0;
    return new Evidence(
        best.texts(),
        hearing.readings().stream()
            .skip(1)
            .map(
                rival ->
                    new Rival(
                        Likeness.of(best.texts(), rival.texts()),
                        best.logScore() - rival.logScore()))
            .toList(),
        best.fit(),
        best.worstWordFit(),
        best.worstTellingWordFit(),
        (best.logScore() - hearing.fillerScore()) / seconds,
        hearing.contested(),
        hearing.heardSnrDb());
  }

  /** The same as if no other reading came near. */
  Evidence withoutRivals() {
    return new Evidence(
        words, List.of(), fit, worstWordFit, worstTellingWordFit, overFiller, false, snrDb);
  }

  /** How far the nearest rival of some likeness is behind; infinitely far when there is none. */
  double lead(Likeness... likenesses) {
    return rivals.stream()
        .filter(rival -> List.of(likenesses).contains(rival.likeness()))
        .mapToDouble(Rival::behind)
        .min()
        .orElse(Double.POSITIVE_INFINITY);
  }
}

package tallyback.speech;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;

/**
 * What is made of a clip that two recognisers have heard. Where both come to the same meaning it is
 * noted, unless the first has strong doubts ({@link Judge#isClearToTwo}); where they don't, both
 * readings are asked about; and a second one without an opinion changes nothing. A clip that is
 * spoilt is asked about whatever two recognisers made of it, and what the first turned down stays
 * turned down, for the second knows nothing of talk that is no entry.
 *
 * <p>Immutable; share freely.
 *
 * @param judgement what it is worth
 * @param readings words of the readings, best first; those of the second recogniser come second
 */
public record TwoOpinions(Judgement judgement, List<List<String>> readings) {

  /** Copies the readings. */
  public TwoOpinions {
    readings = List.copyOf(readings);
  }

  /**
   * Puts both together.
   *
   * @param hearing what the first recogniser made of the clip
   * @param judge says what that is worth
   * @param kind what the second recogniser has in common with the first
   * @param second the phrase of the grammar that the second one heard; empty for no opinion
   * @param meaning which phrases come to the same
   * @return what both are worth
   */
  public static TwoOpinions of(
      Hearing hearing,
      Judge judge,
      SecondKind kind,
      Optional<List<String>> second,
      Meaning meaning) {
    Judgement first = judge.judge(hearing);
    return of(
        hearing.readings().stream().map(Reading::texts).toList(),
        first,
        first != Judgement.REJECT
            && !hearing.clip().isSpoilt()
            && judge.isClearToTwo(hearing, kind),
        second,
        meaning);
  }

  /**
   * Puts both together.
   *
   * @param heard words of the first recogniser's readings, best first
   * @param first what they are worth by themselves
   * @param clearToTwo whether the first of them may be noted if the second recogniser says the same
   * @param second the phrase of the grammar that the second one heard; empty for no opinion
   * @param meaning which phrases come to the same
   * @return what both are worth
   */
  public static TwoOpinions of(
      List<List<String>> heard,
      Judgement first,
      boolean clearToTwo,
      Optional<List<String>> second,
      Meaning meaning) {
    if (first == Judgement.REJECT || second.isEmpty()) {
      return new TwoOpinions(first, heard);
    }
    Object other = meaning.of(second.get());
    if (Objects.equals(meaning.of(heard.get(0)), other)) {
      return new TwoOpinions(clearToTwo ? Judgement.NOTE : Judgement.ASK, heard);
    }
    List<List<String>> readings = new ArrayList<>(heard);
    readings.removeIf(reading -> Objects.equals(meaning.of(reading), other));
    readings.add(1, second.get());
    return new TwoOpinions(Judgement.ASK, readings);
  }
}

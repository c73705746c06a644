package tallyback.dialogue;

import java.util.List;
import java.util.stream.Stream;
import tallyback.model.Amount;
import tallyback.model.Unit;
import tallyback.phrase.EntryGrammar;

/** What the dialogue says to the speaker. */
final class Texts {

  static final String PAUSED = "paused: say carry on first";
  static final String NOTHING_ASKED = "nothing was asked";
  static final String NOTHING_BEFORE =
      "there is nothing before this that it could mean; say it in full";
  static final String NOTHING_MISSED = "nothing was missed";
  static final String DROPPED = "dropped, nothing noted; say it again";

  private Texts() {}

  /** In a quiet shop the noise was not what kept it from being understood. */
  static String notUnderstood(boolean noisy) {
    return "not understood, kept; say it again " + (noisy ? "when it is quieter" : "another way");
  }

  /** "at 10:14 and 10:20 something was not understood: ..." */
  static String reminder(List<String> times) {
    int last = times.size() - 1;
    String at =
        last == 0
            ? times.get(0)
            : String.join(", ", times.subList(0, last)) + " and " + times.get(last);
    return "at "
        + at
        + " something was not understood: say it again, then \"never mind what you missed\"";
  }

  static String question(OpenQuestion question) {
    if (question.doubtful()) {
      return "did you say \"" + question.words() + "\"? yes, no, or say it again";
    }
    if (!Amounts.lacksUnit(question.statement())) {
      return "at the wrench or at the bolt?";
    }
    String number =
        Amounts.of(question.statement()).map(Amount::value).map(Object::toString).orElse("");
    return number + " what? " + Texts.units(question.unitChoices());
  }

  /** What can be answered, in words that can be said as well. */
  static List<String> answers(OpenQuestion question) {
    if (question.doubtful()) {
      List<String> others =
          question.asked().readings().stream()
              .filter(reading -> !reading.equals(question.words()))
              .toList();
      return Stream.concat(Stream.of("yes", "no"), others.stream()).distinct().toList();
    }
    return Amounts.lacksUnit(question.statement())
        ? question.unitChoices().stream().limit(4).map(EntryGrammar::spoken).toList()
        : List.of("at the wrench", "at the bolt");
  }

  /** "newton metres, foot pounds or inch pounds", the usual ones first. */
  private static String units(List<Unit> choices) {
    List<String> names = choices.stream().limit(4).map(EntryGrammar::spoken).toList();
    if (names.isEmpty()) {
      return "say the number with its unit";
    }
    if (names.size() == 1) {
      return names.get(0) + "? say the unit";
    }
    return String.join(", ", names.subList(0, names.size() - 1))
        + " or "
        + names.get(names.size() - 1);
  }
}

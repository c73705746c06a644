package tallyback.dialogue;

import java.util.Comparator;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import tallyback.model.Finding;
import tallyback.model.Unit;
import tallyback.phrase.EntryGrammar;

/** Findings in words for the ear: no signs, no tolerances, units in full. */
final class Aloud {

  private static final Pattern TOLERANCE = Pattern.compile("\\s*±\\s*[0-9.]+\\s*[^\\s,;:.()]*");
  private static final Pattern IN_BRACKETS = Pattern.compile("\\s*\\([^)]*\\)");

  /** Longer signs first, so that a part of one is not taken for it. */
  private static final List<Unit> UNITS =
      Stream.of(Unit.values())
          .filter(unit -> !unit.symbol().isBlank() && !EntryGrammar.spoken(unit).isBlank())
          .sorted(Comparator.comparing((Unit unit) -> unit.symbol().length()).reversed())
          .toList();

  private Aloud() {}

  /** "belly pan bolts: four on the machine, one in the tray". */
  static String finding(Finding finding) {
    return finding.subject() + ": " + words(finding.found());
  }

  static String words(String text) {
    String plain = TOLERANCE.matcher(IN_BRACKETS.matcher(text).replaceAll("")).replaceAll("");
    for (Unit unit : UNITS) {
      // "5 in the tray" speaks of no inches.
      String end = unit == Unit.INCH ? "(?=[,;.]|$)" : "(?![\\p{L}·])";
      plain =
          Pattern.compile("(?<=[0-9]) ?" + Pattern.quote(unit.symbol()) + end)
              .matcher(plain)
              .replaceAll(" " + EntryGrammar.spoken(unit));
    }
    return plain.replace("\"", "");
  }
}

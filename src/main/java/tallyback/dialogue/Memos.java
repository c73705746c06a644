package tallyback.dialogue;

import java.util.Comparator;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import tallyback.model.Statement.Memo;
import tallyback.plan.Plan;

/** Memos that are typed: the text stands behind the word. */
final class Memos {

  private static final Pattern TYPED =
      Pattern.compile("(?:(?:voice|spoken) )?memo[:,]? +(\\S.*)", Pattern.CASE_INSENSITIVE);

  private Memos() {}

  private static final Pattern NAMES =
      Pattern.compile("name +(place .*)", Pattern.CASE_INSENSITIVE);

  /** "memo the thread looks worn", "name place three: lower filter bracket". */
  static Optional<Memo> typed(String line, Plan plan) {
    Matcher memo = TYPED.matcher(line.strip());
    return memo.matches() ? Optional.of(new Memo(null, memo.group(1))) : naming(line, plan);
  }

  /** The longest name wins: "place twenty one" is not place twenty. */
  private static Optional<Memo> naming(String line, Plan plan) {
    Matcher names = NAMES.matcher(line.strip());
    if (!names.matches()) {
      return Optional.empty();
    }
    String rest = names.group(1).replaceAll(" +", " ");
    return plan.places().stream()
        .filter(place -> startsWith(rest, place.label()))
        .max(Comparator.comparingInt(place -> place.label().length()))
        .map(place -> new Memo(null, after(rest, place.label()), place.id()))
        .filter(memo -> !String.valueOf(memo.text()).isEmpty());
  }

  private static boolean startsWith(String text, String name) {
    boolean begins = text.regionMatches(true, 0, name, 0, name.length());
    return begins
        && (text.length() == name.length() || !Character.isLetter(text.charAt(name.length())));
  }

  private static String after(String text, String name) {
    return text.substring(name.length()).replaceFirst("^[ :,.]*", "").strip();
  }
}

package tallyback.dialogue;

import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import tallyback.model.Statement;
import tallyback.model.Statement.About;
import tallyback.model.Statement.Written;
import tallyback.plan.Plan;

/**
 * Lines that are typed and whose words count as they stand: memos, and what the owner of the
 * machine is to read, such as "complaint: loses coolant". The colon tells them from entries.
 */
final class WrittenWords {

  private static final Map<String, About> HEADS =
      Map.ofEntries(
          Map.entry("owner", About.OWNER),
          Map.entry("complaint", About.COMPLAINT),
          Map.entry("arrival", About.ARRIVAL),
          Map.entry("condition", About.ARRIVAL),
          Map.entry("condition on arrival", About.ARRIVAL),
          Map.entry("cause", About.CAUSE),
          Map.entry("extra work", About.EXTRA_WORK),
          Map.entry("agreed", About.AGREED),
          Map.entry("agreed with", About.AGREED),
          Map.entry("advice", About.ADVICE),
          Map.entry("watch", About.ADVICE),
          Map.entry("to watch", About.ADVICE),
          Map.entry("old parts", About.OLD_PARTS),
          Map.entry("waste", About.WASTE),
          Map.entry("signed", About.SIGNED),
          Map.entry("signed by", About.SIGNED));

  private static final Pattern HEADED = Pattern.compile("(\\p{L}[\\p{L} ]*?) *: *(\\S.*)");

  private WrittenWords() {}

  /** What the line is, if its words count as they stand. */
  static Optional<Statement> of(String line, Plan plan) {
    return Memos.typed(line, plan).<Statement>map(memo -> memo).or(() -> forTheOwner(line));
  }

  private static Optional<Statement> forTheOwner(String line) {
    Matcher headed = HEADED.matcher(line.strip());
    if (!headed.matches()) {
      return Optional.empty();
    }
    String head = headed.group(1).toLowerCase(Locale.ROOT).replaceAll(" +", " ");
    return Optional.ofNullable(HEADS.get(head))
        .map(about -> new Written(about, headed.group(2).strip()));
  }
}

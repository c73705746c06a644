package tallyback.dialogue;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import tallyback.model.Statement.Memo;

/** Memos that are typed: the text stands behind the word. */
final class Memos {

  private static final Pattern TYPED =
      Pattern.compile("(?:(?:voice|spoken) )?memo[:,]? +(\\S.*)", Pattern.CASE_INSENSITIVE);

  private Memos() {}

  /** "memo the thread looks worn". */
  static Optional<Memo> typed(String line) {
    Matcher memo = TYPED.matcher(line.strip());
    return memo.matches() ? Optional.of(new Memo(null, memo.group(1))) : Optional.empty();
  }
}

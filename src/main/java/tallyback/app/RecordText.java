package tallyback.app;

import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.log.LogReader;
import tallyback.log.Seal;
import tallyback.model.Entry;
import tallyback.plan.Plan;
import tallyback.plan.PlanReader;
import tallyback.report.JobRecord;
import tallyback.report.owner.Form;
import tallyback.report.owner.OwnerRecord;

/**
 * Holds what a record for the owner says against the log: its annex tells every entry, and every
 * one must be told as the log has it. Its other pages are made of the same entries by rules that
 * may have been bettered since, so they are not compared. Stateless.
 */
public final class RecordText {

  private static final char MINUS = '\u2212';

  private RecordText() {}

  /**
   * What came of it.
   *
   * @param lines how many entries were compared
   * @param differs the first that the record tells otherwise, as the log has it; null for none
   * @param number its number; empty for none
   */
  public record Held(int lines, @Nullable String differs, String number) {}

  /**
   * Compares.
   *
   * @param file a record, HTML or PDF
   * @param log the log
   * @param seal the seal in the record
   * @return empty when the log can't say what the record should tell
   */
  public static Optional<Held> against(Path file, LogReader log, Seal seal) {
    Plan plan =
        log.planText(seal.job()).flatMap(text -> PlanReader.read("plan", text).plan()).orElse(null);
    if (plan == null) {
      return Optional.empty();
    }
    List<Entry> all = log.entries(seal.job());
    List<Entry> sealed = all.stream().filter(entry -> entry.seq() <= seal.seq()).toList();
    String text = letters(RecordSeal.text(file));
    Held best = null;
    // Made after the seal it tells of what followed, too.
    for (List<Entry> entries : sealed.equals(all) ? List.of(all) : List.of(sealed, all)) {
      for (Form.Units units : Form.Units.values()) {
        Held held = held(text, plan, seal, entries, units);
        if (held.differs() == null) {
          return Optional.of(held);
        }
        best = best == null || held.lines() > best.lines() ? held : best;
      }
    }
    return Optional.ofNullable(best);
  }

  private static Held held(
      String text, Plan plan, Seal seal, List<Entry> entries, Form.Units units) {
    CheckedJob checked = CheckedJob.of(seal.job(), plan, entries);
    JobRecord record = checked.record(Instant.EPOCH, null);
    int from = 0;
    int compared = 0;
    for (OwnerRecord.Line line : OwnerRecord.told(record, units)) {
      int found = text.indexOf(letters(line.number() + line.text()), from);
      if (found < 0) {
        return new Held(compared, line.text().strip(), line.number());
      }
      from = found;
      compared++;
    }
    return new Held(compared, null, "");
  }

  /**
   * What is left of a text whatever lines it is broken into, and whatever stands for letters that
   * paper lacks: letters, digits and what makes another number of them.
   */
  private static String letters(String text) {
    StringBuilder letters = new StringBuilder(text.length());
    boolean minus = false;
    for (int index = 0; index < text.length(); index++) {
      char c = Character.toLowerCase(text.charAt(index));
      boolean digit = c >= '0' && c <= '9';
      if (digit && minus) {
        letters.append('-');
      }
      if (digit || (c >= 'a' && c <= 'z') || c == '.' || c == ',') {
        letters.append(c);
      }
      boolean blank = Character.isWhitespace(c) || Character.isSpaceChar(c);
      minus = c == '-' || c == MINUS || (minus && blank);
    }
    return letters.toString();
  }
}

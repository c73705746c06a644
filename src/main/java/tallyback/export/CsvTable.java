package tallyback.export;

import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tallyback.books.Fate;
import tallyback.log.EntryJson;
import tallyback.model.Amount;
import tallyback.model.Entry;
import tallyback.model.Statement;
import tallyback.report.JobRecord;
import tallyback.report.JobWords;

/**
 * Every entry as a row of comma-separated values (RFC 4180: lines end with CR LF, a cell with a
 * comma, a quotation mark or a line end stands in quotation marks, which are doubled in it).
 *
 * <p>A spreadsheet takes what begins with {@code =}, {@code +}, {@code -} or {@code @} for a
 * formula and would work it out. No text does that here: such a cell begins with an apostrophe,
 * which stands for "text". Numbers are left alone. A blank or a quotation mark before the sign
 * changes nothing, so they are looked past.
 */
final class CsvTable {

  private static final String LINE_END = "\r\n";

  private static final List<String> HEADER =
      List.of(
          "job",
          "number",
          "happened_at",
          "recorded_at",
          "who",
          "device",
          "source",
          "certainty",
          "kind",
          "words",
          "meaning",
          "about",
          "amount",
          "unit",
          "count",
          "other_amounts",
          "stands",
          "withdrawn_by",
          "corrected_by",
          "time_changed_by",
          "in_doubt_by",
          "changes");

  /** Also in the wide form of East Asian keyboards, which some spreadsheets read alike. */
  private static final Pattern FORMULA =
      Pattern.compile("[\\s\"'\u00a0\u3000\ufeff]*[=+\\-@\uff1d\uff0b\uff0d\uff20\u2212|%].*");

  private static final Pattern NEEDS_QUOTES = Pattern.compile("(?s).*[,\"\\r\\n;].*|\\s.*|.*\\s");

  private static final DateTimeFormatter ISO =
      DateTimeFormatter.ofPattern("uuuu-MM-dd'T'HH:mm:ss.SSSxxx", Locale.ROOT);

  private CsvTable() {}

  static String text(JobRecord job) {
    JobWords words = JobWords.of(job);
    Map<String, Fate> fates = Fate.of(job.entries());
    Map<String, Long> numbers = new HashMap<>();
    job.entries().forEach(entry -> numbers.put(entry.id(), entry.seq()));
    StringBuilder table = new StringBuilder(String.join(",", HEADER)).append(LINE_END);
    for (Entry entry : job.entries()) {
      table
          .append(String.join(",", row(job, words, entry, fates.get(entry.id()), numbers)))
          .append(LINE_END);
    }
    return table.toString();
  }

  /** ISO 8601 with milliseconds and offset, in the shop's zone. */
  static String time(Instant moment, ZoneId zone) {
    return ISO.format(moment.atZone(zone));
  }

  private static List<String> row(
      JobRecord job, JobWords words, Entry entry, @Nullable Fate fate, Map<String, Long> numbers) {
    Statement holds =
        entry.statement() instanceof Statement.Corrected corrected ? corrected.now() : entry.said();
    Amounts amounts = Amounts.of(holds);
    List<String> row = new ArrayList<>();
    row.add(cell(entry.job()));
    row.add(Long.toString(entry.seq()));
    row.add(time(words.happenedAt(entry), entry.zone()));
    row.add(time(entry.recordedAt(), entry.zone()));
    row.add(cell(job.plan().label(entry.actor())));
    row.add(cell(entry.device()));
    row.add(word(entry.source()));
    row.add(word(entry.certainty()));
    row.add(EntryJson.kind(entry.statement()));
    row.add(cell(entry.words()));
    row.add(cell(words.meaning(entry)));
    row.add(amounts.about ? "yes" : "");
    row.add(amounts.value);
    row.add(cell(amounts.unit));
    row.add(amounts.count == null ? "" : amounts.count.toString());
    row.add(cell(String.join("; ", amounts.others)));
    row.add(fate != null && fate.struck() ? "no" : "yes");
    row.add(fate == null ? "" : number(fate.withdrawnBy()));
    row.add(fate == null ? "" : number(fate.correctedBy()));
    row.add(fate == null ? "" : number(fate.retimedBy()));
    row.add(fate == null ? "" : number(fate.doubtedBy()));
    row.add(changes(entry.statement(), numbers));
    return row;
  }

  private static String changes(Statement statement, Map<String, Long> numbers) {
    String target = null;
    if (statement instanceof Statement.Undone undone) {
      target = undone.target();
    } else if (statement instanceof Statement.Corrected corrected) {
      target = corrected.target();
    } else if (statement instanceof Statement.Retimed retimed) {
      target = retimed.target();
    } else if (statement instanceof Statement.NotUnderstoodSettled settled) {
      target = settled.target();
    }
    Long number = target == null ? null : numbers.get(target);
    return number == null ? "" : number.toString();
  }

  private static String number(@Nullable Entry by) {
    return by == null ? "" : Long.toString(by.seq());
  }

  private static String word(Enum<?> constant) {
    return constant.name().toLowerCase(Locale.ROOT);
  }

  /** A text as a cell: on one line, no formula, in quotation marks where it must be. */
  static String cell(String text) {
    String line = Line.of(text);
    String safe = FORMULA.matcher(line).matches() ? "'" + line : line;
    return NEEDS_QUOTES.matcher(safe).matches() ? '"' + safe.replace("\"", "\"\"") + '"' : safe;
  }

  /** What of a statement is a number. */
  private static final class Amounts {
    private String value = "";
    private String unit = "";
    private boolean about;
    private @Nullable Integer count;
    private final List<String> others = new ArrayList<>();

    static Amounts of(Statement statement) {
      Amounts amounts = new Amounts();
      if (statement instanceof Statement.FluidMoved fluid) {
        amounts.main(fluid.amount());
        amounts.about = fluid.about();
        amounts.other("temperature", fluid.temperature());
      } else if (statement instanceof Statement.Measured measured) {
        amounts.main(measured.amount());
      } else if (statement instanceof Statement.Tightened tightened) {
        amounts.main(tightened.torque());
        amounts.count = tightened.count();
        amounts.other("further turn", tightened.angle());
      } else if (statement instanceof Statement.ItemsMoved items) {
        amounts.count = items.count();
        amounts.other("head", items.headSize());
      } else if (statement instanceof Statement.TemporaryMoved moved) {
        amounts.count = moved.count();
      } else if (statement instanceof Statement.Aligned aligned) {
        amounts.main(aligned.angle());
      } else if (statement instanceof Statement.TimerSet timer) {
        amounts.main(timer.after());
      } else if (statement instanceof Statement.LookAgain again) {
        amounts.value = again.count().toString();
        amounts.unit = word(again.span());
      }
      return amounts;
    }

    private void main(@Nullable Amount amount) {
      if (amount != null) {
        value = amount.value().toPlainString();
        unit = amount.unit().symbol();
      }
    }

    private void other(String name, @Nullable Amount amount) {
      if (amount != null) {
        others.add(name + " " + amount);
      }
    }
  }
}

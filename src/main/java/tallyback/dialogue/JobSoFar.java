package tallyback.dialogue;

import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.books.Books;
import tallyback.books.Standing;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.model.Source;
import tallyback.model.Statement;
import tallyback.model.Statement.JobOpened;
import tallyback.plan.Plan;

/** The job as noted until now, and as it would be with one statement more. One thread. */
final class JobSoFar {

  private static final DateTimeFormatter HOUR_AND_MINUTE =
      DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);

  private final Plan plan;
  private final ZoneId zone;
  private final Map<String, Entry> entries = new LinkedHashMap<>();
  private @Nullable Books books;

  JobSoFar(Plan plan, ZoneId zone) {
    this.plan = plan;
    this.zone = zone;
  }

  /** Takes an entry as it is noted; one that is told again is no second one. */
  void add(Entry entry) {
    entries.put(entry.id(), entry);
    books = null;
  }

  List<Entry> entries() {
    return List.copyOf(entries.values());
  }

  /** The books of it, made once after each entry. */
  Books books() {
    Books made = books;
    if (made == null) {
      made = Books.of(plan, entries());
      books = made;
    }
    return made;
  }

  /** The entries that still hold, as they hold now, by when they happened. */
  List<Standing> standing() {
    return books().standing();
  }

  /** What an entry means now; empty when it was withdrawn or is none. */
  Optional<Standing> standing(String id) {
    return standing().stream().filter(said -> said.entry().id().equals(id)).findFirst();
  }

  /** When the job was opened; empty when nobody noted it. */
  Optional<Instant> openedAt() {
    return entries.values().stream()
        .filter(entry -> entry.statement() instanceof JobOpened)
        .map(Entry::happenedAt)
        .findFirst();
  }

  /** "09:14", by the clock of the shop. */
  String clockTime(Instant at) {
    return HOUR_AND_MINUTE.format(at.atZone(zone));
  }

  /** All entries and one more. */
  List<Entry> with(Statement statement, Instant happenedAt) {
    List<Entry> all = new ArrayList<>(entries.values());
    long seq = all.stream().mapToLong(Entry::seq).max().orElse(0) + 1;
    all.add(
        new Entry(
            "@would-be",
            "job",
            seq,
            happenedAt,
            happenedAt,
            zone,
            "tallyback",
            "tallyback",
            Source.TOOL,
            Certainty.CONFIRMED,
            "",
            null,
            statement));
    return all;
  }

  /** The books with one statement more. */
  Books booksWith(Statement statement, Instant happenedAt) {
    return Books.of(plan, with(statement, happenedAt));
  }
}
